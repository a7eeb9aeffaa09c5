import { Button } from '@mantine/core';
import { correctiveActions, type CorrectiveSummary } from '@countercheck/contracts';
import { Link, useNavigate } from '@tanstack/react-router';
import { useState } from 'react';
import { RaterChoice } from '../../components/choosers/index.ts';
import { Dialog } from '../../components/feedback/index.ts';
import { Tag } from '../../components/marks/index.ts';
import { DateText, Moment, Page } from '../../components/page/index.ts';
import { ChoiceFilter, DataTable, type Column } from '../../components/table/index.ts';
import { oneOf, useListSearch } from '../../lib/list-search.ts';
import { useRoute } from '../../lib/query.ts';
import { HoldsPanel } from './holds-panel.tsx';
import { OpenForm } from './open-form.tsx';

const columns: Column<CorrectiveSummary>[] = [
  {
    title: 'About',
    head: true,
    cell: (row) => (
      <>
        <Link to={`/corrective-actions/${row.id}`}>{row.about.name}</Link>
        <span className="small soft"> {row.subject}</span>
      </>
    ),
  },
  { title: 'Cause', cell: (row) => row.cause },
  { title: 'Since', cell: (row) => <Moment at={row.openedAt} day /> },
  {
    title: 'Clean files',
    figure: true,
    cell: (row) => `${Math.min(row.cleanFiles, row.cleanFilesNeeded)} of ${row.cleanFilesNeeded}`,
  },
  {
    title: 'Looked at again',
    cell: (row) => (
      <>
        <DateText date={row.effectivenessDueOn} /> {row.effectivenessOverdue && <Tag tone="bad">Overdue</Tag>}
      </>
    ),
  },
  {
    title: 'State',
    cell: (row) => (
      <>
        <Tag tone={row.state === 'closed' ? 'good' : 'brass'}>
          {row.state === 'closed' ? 'Closed' : 'Open'}
        </Tag>{' '}
        {row.held && <Tag tone="bad">Held</Tag>}
        {row.restoredAt && row.state === 'open' && <Tag tone="good">Clean files reached</Tag>}
      </>
    ),
  },
];

/** What is done so that a fault does not come again, and who is held. */
export default function ActionsPage() {
  const { values, page, change } = useListSearch();
  const navigate = useNavigate();
  // A finding on readings leads here with its rater.
  const about = values.about ?? null;
  const [opening, setOpening] = useState(about !== null);
  const query = useRoute(
    correctiveActions.list,
    { query: { page, state: oneOf(['open', 'closed'], values.state), raterId: values.raterId } },
    { keepPrevious: true },
  );
  return (
    <Page
      title="Corrective actions"
      lead="Cause, action, evidence, and whether it has helped."
      actions={<Button onClick={() => setOpening(true)}>Open an action</Button>}
    >
      <DataTable
        caption="Corrective actions"
        query={query}
        columns={columns}
        keyOf={({ id }) => id}
        filters={
          <>
            <ChoiceFilter
              label="State"
              name="state"
              none="Open and closed"
              options={[
                { value: 'open', label: 'Open' },
                { value: 'closed', label: 'Closed' },
              ]}
            />
            <RaterChoice value={values.raterId ?? null} onChange={(raterId) => change({ raterId })} />
          </>
        }
        empty="No corrective action is like that"
      />
      <HoldsPanel />
      {opening && (
        <Dialog title="Open a corrective action" onClose={() => setOpening(false)} wide>
          <OpenForm
            raterId={about}
            onCancel={() => setOpening(false)}
            onOpened={({ id }) => void navigate({ to: `/corrective-actions/${id}` })}
          />
        </Dialog>
      )}
    </Page>
  );
}
