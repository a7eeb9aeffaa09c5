import { Button } from '@mantine/core';
import { planning, scheduling, visits, type WeekPlan } from '@countercheck/contracts';
import { said } from '../../components/feedback/index.ts';
import { FactList, Page, Panel } from '../../components/page/index.ts';
import { RunPanel, whileAtWork } from '../../components/runs/index.ts';
import { Asked, Problem } from '../../components/states/index.ts';
import { RowsTable } from '../../components/table/index.ts';
import { showDate } from '../../lib/dates.ts';
import { useParam } from '../../lib/page-route.ts';
import { useAction, useRoute } from '../../lib/query.ts';
import { useMe } from '../../lib/session.ts';
import { visitKindWords } from '../../lib/words/work.ts';
import { DayPanel } from './day-panel.tsx';
import { MapPanel } from './map-panel.tsx';
import { driveWords, goodWords, roadWords, travelWords } from './words.ts';
import './planning.css';

export default function PlanPage() {
  const id = useParam('id');
  const query = useRoute(planning.show, { params: { id } }, { refetchInterval: whileAtWork });
  return <Asked query={query}>{(plan) => <PlanSheet plan={plan} />}</Asked>;
}

function PlanSheet({ plan }: { plan: WeekPlan }) {
  const { unitSystem } = useMe();
  const params = { id: plan.id };
  const invalidates = [planning.show, planning.list, visits.list, scheduling.board, scheduling.requests];
  const cancel = useAction(planning.cancel, { invalidates });
  const accept = useAction(planning.accept, {
    invalidates,
    onDone: (after) => said(`${after.accepted} booked; ${after.proposed} left to decide.`),
  });
  const reject = useAction(planning.reject, { invalidates });
  const busy = accept.isPending || reject.isPending;
  const open = plan.days.flatMap(({ stops }) => stops).filter(({ state }) => state === 'proposed');
  const ids = open.map(({ id }) => id);
  const decide = {
    busy,
    accept: (stopIds: string[]) => accept.mutate({ params, body: { stopIds } }),
    reject: (stopIds: string[]) => reject.mutate({ params, body: { stopIds } }),
  };
  const problem = accept.error ?? reject.error;
  return (
    <Page
      title={`Plan, ${showDate(plan.from)} – ${showDate(plan.to)}`}
      back={{ to: '/plans', label: 'Plans' }}
      lead={plan.note}
      actions={
        open.length > 0 && (
          <>
            <Button variant="default" disabled={busy} onClick={() => decide.reject(ids)}>
              Set all aside
            </Button>
            <Button loading={busy} onClick={() => decide.accept(ids)}>
              Accept all {open.length}
            </Button>
          </>
        )
      }
    >
      {problem !== null && <Problem error={problem} />}
      <RunPanel
        run={plan}
        what="steps"
        onCancel={() => cancel.mutate({ params })}
        cancelling={cancel.isPending}
        error={cancel.error}
      />
      {plan.state === 'done' && (
        <>
          <Panel title="In short">
            <FactList
              facts={[
                ['To decide', String(plan.proposed)],
                ['Booked by this plan', String(plan.accepted)],
                ['Without a place', String(plan.unplaced ?? 0)],
                ['On the road', driveWords(plan.driveMinutes ?? 0)],
                ['Distance', roadWords(plan.driveKm ?? 0, unitSystem)],
                ['Times on the road', travelWords(plan.travel, unitSystem)],
                ['How good', goodWords(plan)],
              ]}
            />
            <p className="soft">
              Under each proposed house stands who would be next best and what that would cost more, all else
              as it is, in minutes of driving and what counts like them: waiting, a fair share of the work,
              another rater at a reinspection.
            </p>
            {plan.notes.length > 0 && (
              <>
                <h3>Left out of this plan</h3>
                <ul>
                  {plan.notes.map((note) => (
                    <li key={note}>{note}</li>
                  ))}
                </ul>
              </>
            )}
          </Panel>
          {plan.unplacedVisits.length > 0 && (
            <Panel title="Without a place" flush>
              <RowsTable
                caption="Visits without a place in this plan, and why"
                columns={[
                  { title: 'House', head: true, cell: (row) => row.address },
                  { title: 'Kind', cell: (row) => visitKindWords[row.kind] },
                  { title: 'Why', cell: (row) => row.why },
                ]}
                rows={plan.unplacedVisits}
                keyOf={(row) => row.requestId ?? row.visitId ?? row.houseId}
              />
            </Panel>
          )}
          {plan.days.length > 0 && <MapPanel days={plan.days} unitSystem={unitSystem} />}
          {plan.days.map((day) => (
            <DayPanel key={`${day.rater.id} ${day.date}`} day={day} decide={decide} unitSystem={unitSystem} />
          ))}
        </>
      )}
    </Page>
  );
}
