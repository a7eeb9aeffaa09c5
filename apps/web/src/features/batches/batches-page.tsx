import { batches, type BatchSummary } from '@countercheck/contracts';
import { Link, useNavigate } from '@tanstack/react-router';
import { DialogButton } from '../../components/feedback/index.ts';
import { Tag } from '../../components/marks/index.ts';
import { Moment, Page } from '../../components/page/index.ts';
import { DataTable, type Column } from '../../components/table/index.ts';
import { useListSearch } from '../../lib/list-search.ts';
import { useRoute } from '../../lib/query.ts';
import { useRole } from '../../lib/session.ts';
import { OpenForm } from './open-form.tsx';
import { RulesPanel } from './rules-panel.tsx';
import { phaseWords, toneOf } from './words.ts';

const columns: Column<BatchSummary>[] = [
  { title: 'Batch', head: true, cell: (row) => <Link to={`/batches/${row.id}`}>{row.title}</Link> },
  { title: 'Builder', cell: (row) => row.builder },
  { title: 'Community', cell: (row) => row.community },
  { title: 'Plan', cell: (row) => row.plan ?? 'Any' },
  { title: 'Rules', cell: (row) => row.rules },
  { title: 'Houses', figure: true, cell: (row) => row.houses },
  { title: 'Tested', figure: true, cell: (row) => row.tested },
  { title: 'Sets', figure: true, cell: (row) => row.sets },
  { title: 'Opened', cell: (row) => <Moment at={row.openedAt} day /> },
  { title: 'Phase', cell: (row) => <Tag tone={toneOf(row.phase)}>{phaseWords[row.phase]}</Tag> },
];

/** Like houses by the same trades, verified by samples. */
export default function BatchesPage() {
  const { page } = useListSearch();
  const query = useRoute(batches.list, { query: { page } }, { keepPrevious: true });
  const navigate = useNavigate();
  const mayOpen = useRole('quality');
  return (
    <Page
      title="Batches"
      lead="Like houses by the same trades, verified by samples. A house that was not tested has no readings, and its file never says that it has."
      actions={
        mayOpen && (
          <DialogButton label="Open a batch">
            {(close) => (
              <OpenForm onCancel={close} onDone={({ id }) => void navigate({ to: `/batches/${id}` })} />
            )}
          </DialogButton>
        )
      }
    >
      <DataTable
        caption="Batches"
        columns={columns}
        keyOf={(row) => row.id}
        query={query}
        empty="No batch was opened yet"
      />
      <RulesPanel />
    </Page>
  );
}
