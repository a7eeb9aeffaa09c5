import { planning, type WeekPlanSummary } from '@countercheck/contracts';
import { Link, useNavigate } from '@tanstack/react-router';
import { DialogButton } from '../../components/feedback/index.ts';
import { Moment, Page } from '../../components/page/index.ts';
import { RunTag, whileAtWork } from '../../components/runs/index.ts';
import { DataTable, type Column } from '../../components/table/index.ts';
import { showDate } from '../../lib/dates.ts';
import { useListSearch } from '../../lib/list-search.ts';
import { useRoute } from '../../lib/query.ts';
import { useRole } from '../../lib/session.ts';
import { PlanForm } from './plan-form.tsx';
import { SettingsForm } from './settings-form.tsx';
import { driveWords } from './words.ts';

const columns: Column<WeekPlanSummary>[] = [
  {
    title: 'Days',
    head: true,
    cell: (row) => (
      <Link to={`/plans/${row.id}`}>
        {showDate(row.from)} – {showDate(row.to)}
      </Link>
    ),
  },
  { title: 'Asked', cell: (row) => <Moment at={row.askedAt} /> },
  { title: 'By', cell: (row) => row.askedBy },
  { title: 'Kind', cell: (row) => (row.replan ? 'Planned again' : 'New visits') },
  { title: 'To decide', figure: true, cell: (row) => row.proposed },
  { title: 'Booked', figure: true, cell: (row) => row.accepted },
  { title: 'No place', figure: true, cell: (row) => row.unplaced ?? '–' },
  {
    title: 'On the road',
    figure: true,
    cell: (row) => (row.driveMinutes === null ? '–' : driveWords(row.driveMinutes)),
  },
  { title: 'State', cell: (row) => <RunTag run={row} /> },
];

/** Plans of who goes where; each is a proposal. */
export default function PlansPage() {
  const { page } = useListSearch();
  const query = useRoute(
    planning.list,
    { query: { page } },
    { keepPrevious: true, refetchInterval: whileAtWork },
  );
  const navigate = useNavigate();
  const admin = useRole('administrator');
  return (
    <Page
      title="Plans"
      lead="Who goes where in which order. Nothing is booked until you accept it."
      actions={
        <>
          {admin && (
            <DialogButton label="Time on the road" variant="default">
              {(close) => <SettingsForm onClose={close} />}
            </DialogButton>
          )}
          <DialogButton label="Plan the week">
            {(close) => (
              <PlanForm onCancel={close} onDone={({ id }) => void navigate({ to: `/plans/${id}` })} />
            )}
          </DialogButton>
        </>
      }
    >
      <DataTable
        caption="Plans"
        columns={columns}
        keyOf={(row) => row.id}
        query={query}
        empty="Nothing was planned yet"
      />
    </Page>
  );
}
