import { Button } from '@mantine/core';
import { scheduling, type DayOff } from '@countercheck/contracts';
import { useState } from 'react';
import { Confirm, said } from '../../components/feedback/index.ts';
import { Panel } from '../../components/page/index.ts';
import { Asked, Empty } from '../../components/states/index.ts';
import { RowsTable } from '../../components/table/index.ts';
import { showDate } from '../../lib/dates.ts';
import { useAction, useRoute } from '../../lib/query.ts';
import { useRole } from '../../lib/session.ts';
import { DayOffDialog, touchedByDaysOff } from './day-off-dialog.tsx';

const spanWords = ({ from, to }: DayOff) =>
  from === to ? showDate(from) : `${showDate(from)} – ${showDate(to)}`;
const whoWords = ({ rater }: DayOff) => rater ?? 'Everybody';

/** Vacations, sick days and holidays that are not over. */
export function DaysOffPanel() {
  const query = useRoute(scheduling.daysOff, {});
  const keeper = useRole('office', 'administrator');
  const [entering, setEntering] = useState(false);
  const [leaving, setLeaving] = useState<DayOff | null>(null);
  const remove = useAction(scheduling.removeDayOff, { invalidates: touchedByDaysOff });
  return (
    <Panel
      title="Days off"
      flush
      actions={
        keeper && (
          <Button size="xs" variant="default" onClick={() => setEntering(true)}>
            Enter days off
          </Button>
        )
      }
    >
      <Asked query={query}>
        {(rows) =>
          rows.length === 0 ? (
            <Empty title="Everybody works as usual" />
          ) : (
            <RowsTable
              caption="Days off that are not over"
              rows={rows}
              keyOf={(row) => row.id}
              columns={[
                { title: 'Who', head: true, cell: whoWords },
                { title: 'When', cell: spanWords },
                { title: 'Why', cell: (row) => row.why },
                { title: 'Entered by', cell: (row) => row.byName },
                ...(keeper
                  ? [
                      {
                        title: 'Actions',
                        cell: (row: DayOff) => (
                          <Button
                            size="compact-sm"
                            variant="default"
                            aria-label={`Take back: ${whoWords(row)}, ${spanWords(row)}`}
                            onClick={() => setLeaving(row)}
                          >
                            Take back
                          </Button>
                        ),
                      },
                    ]
                  : []),
              ]}
            />
          )
        }
      </Asked>
      {entering && <DayOffDialog onClose={() => setEntering(false)} />}
      <Confirm
        title="Take these days off back?"
        opened={leaving !== null}
        onClose={() => setLeaving(null)}
        action="Take back"
        onConfirm={async () => {
          if (leaving) await remove.mutateAsync({ params: { id: leaving.id } });
          said('Works as usual');
        }}
      >
        {leaving && (
          <p>
            {whoWords(leaving)}, {spanWords(leaving)}: {leaving.why}
          </p>
        )}
      </Confirm>
    </Panel>
  );
}
