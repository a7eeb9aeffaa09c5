import { replay, type ReplaySummary } from '@countercheck/contracts';
import { Link, useNavigate } from '@tanstack/react-router';
import { DialogButton } from '../../components/feedback/index.ts';
import { Moment, Page } from '../../components/page/index.ts';
import { RunTag, whileAtWork } from '../../components/runs/index.ts';
import { DataTable, type Column } from '../../components/table/index.ts';
import { useListSearch } from '../../lib/list-search.ts';
import { useRoute } from '../../lib/query.ts';
import { ReplayForm } from './replay-form.tsx';
import { signed } from './words.ts';

const columns: Column<ReplaySummary>[] = [
  {
    title: 'Rule set applied',
    head: true,
    cell: (row) => (
      <Link to={`/replays/${row.id}`}>
        {row.ruleSet.title} {row.ruleSet.version}
      </Link>
    ),
  },
  { title: 'Asked', cell: (row) => <Moment at={row.askedAt} /> },
  { title: 'By', cell: (row) => row.askedBy },
  { title: 'Note', cell: (row) => row.note ?? '–' },
  { title: 'Houses', figure: true, cell: (row) => row.total?.toLocaleString('en-US') ?? '–' },
  { title: 'Affected', figure: true, cell: (row) => row.affected?.toLocaleString('en-US') ?? '–' },
  {
    title: 'Reinspections',
    figure: true,
    cell: (row) => (row.reinspections === null ? '–' : signed(row.reinspections)),
  },
  { title: 'State', cell: (row) => <RunTag run={row} /> },
];

/** What other rules would have said about past houses. */
export default function ReplaysPage() {
  const { page } = useListSearch();
  const query = useRoute(
    replay.list,
    { query: { page } },
    { keepPrevious: true, refetchInterval: whileAtWork },
  );
  const navigate = useNavigate();
  return (
    <Page
      title="Replays"
      lead="Another rule set over past houses, which stay as they are."
      actions={
        <DialogButton label="Start a replay">
          {(close) => (
            <ReplayForm onCancel={close} onDone={({ id }) => void navigate({ to: `/replays/${id}` })} />
          )}
        </DialogButton>
      }
    >
      <DataTable
        caption="Replays"
        columns={columns}
        keyOf={(row) => row.id}
        query={query}
        empty="No replay was asked for yet"
      />
    </Page>
  );
}
