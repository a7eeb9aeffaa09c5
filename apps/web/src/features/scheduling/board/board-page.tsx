import { ActionIcon, Button } from '@mantine/core';
import { useMediaQuery } from '@mantine/hooks';
import { IconChevronLeft, IconChevronRight } from '@tabler/icons-react';
import { scheduling, type BoardVisit } from '@countercheck/contracts';
import { DndContext, DragOverlay, PointerSensor, useSensor, useSensors } from '@dnd-kit/core';
import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import { Page, Panel } from '../../../components/page/index.ts';
import { Asked, Empty } from '../../../components/states/index.ts';
import { addDays, clockOf, showDate, today, weekStart } from '../../../lib/dates.ts';
import { useListSearch } from '../../../lib/list-search.ts';
import { useRoute } from '../../../lib/query.ts';
import { useMe, useRole } from '../../../lib/session.ts';
import { RequestCard, type Step } from './cards.tsx';
import { DayList } from './day-list.tsx';
import { freeStart } from './free-start.ts';
import { houseOf, minutesOf, type Placing, type Thing } from './place.ts';
import { PlaceDialog } from './place-dialog.tsx';
import { VisitDialog } from './visit-dialog.tsx';
import { WeekGrid } from './week-grid.tsx';
import './board.css';

/** The week: what is asked for beside who goes where on which day. */
export default function BoardPage() {
  const zone = useMe().company.timezone;
  const keeper = useRole('office', 'administrator');
  const narrow = useMediaQuery('(max-width: 60em)', undefined, { getInitialValueInEffect: false });
  const { values, change } = useListSearch();
  const day = values.date ?? today(zone);
  const from = weekStart(day);
  const board = useRoute(scheduling.board, { query: { from } }, { keepPrevious: true });
  const requests = useRoute(scheduling.requests, { query: { state: 'open', pageSize: 100 } });
  const [placing, setPlacing] = useState<Placing | null>(null);
  const [opened, setOpened] = useState<BoardVisit | null>(null);
  const [dragged, setDragged] = useState<Thing | null>(null);
  const sensors = useSensors(useSensor(PointerSensor, { activationConstraint: { distance: 8 } }));
  const { raters = [], visits = [], daysOff = [] } = board.data ?? {};

  /** Asks for the place: the first time that day at which the rater is free, to be changed before it is done. */
  const place = (thing: Thing, raterId: string | null, on: string) => {
    const others = visits
      .map(({ visit }) => visit)
      .filter((visit) => visit.rater.id === raterId && !('visit' in thing && thing.visit.id === visit.id));
    const profile = raters.find(({ rater }) => rater.id === raterId) ?? { workingHours: [] };
    const times = freeStart(profile, others, on, minutesOf(thing), zone);
    setOpened(null);
    setPlacing({ thing, raterId, day: on, ...times });
  };
  const move = ({ visit }: BoardVisit) => {
    const { date, time } = clockOf(visit.startsAt, zone);
    setOpened(null);
    const end = clockOf(visit.endsAt, zone).time;
    setPlacing({ thing: { visit }, raterId: visit.rater.id, day: date, start: time, end });
  };
  const stepBy = ({ visit }: BoardVisit, { days, raters: down }: Step) => {
    const index = raters.findIndex(({ rater }) => rater.id === visit.rater.id) + down;
    const rater = raters[index]?.rater.id;
    if (rater) place({ visit }, rater, addDays(clockOf(visit.startsAt, zone).date, days));
  };
  const open = (
    <Panel title={`Open requests${requests.data ? ` (${requests.data.total})` : ''}`}>
      <Asked query={requests}>
        {({ items, total }) =>
          items.length === 0 ? (
            <Empty title="Nothing waits to be booked" />
          ) : (
            <>
              {total > items.length && (
                <p className="board-more small">
                  The {items.length} that are due first. <Link to="/requests">All {total} requests</Link>
                </p>
              )}
              <ul className="board-requests">
                {items.map((request) => (
                  <RequestCard
                    key={request.id}
                    request={request}
                    keeper={keeper}
                    onPlace={() =>
                      place(
                        { request },
                        null,
                        request.earliestOn > today(zone) ? request.earliestOn : today(zone),
                      )
                    }
                  />
                ))}
              </ul>
            </>
          )
        }
      </Asked>
    </Panel>
  );

  return (
    <Page
      title="Week board"
      actions={
        <div className="row">
          <ActionIcon
            variant="default"
            size="lg"
            aria-label="Earlier week"
            onClick={() => change({ date: addDays(from, -7) })}
          >
            <IconChevronLeft size={18} />
          </ActionIcon>
          <strong role="status">
            {showDate(from)} – {showDate(addDays(from, 6))}
          </strong>
          <ActionIcon
            variant="default"
            size="lg"
            aria-label="Later week"
            onClick={() => change({ date: addDays(from, 7) })}
          >
            <IconChevronRight size={18} />
          </ActionIcon>
          <Button variant="default" onClick={() => change({ date: null })}>
            This week
          </Button>
        </div>
      }
    >
      {keeper && (
        <p id="board-keys" className="small soft">
          {narrow
            ? 'Place puts a request on a day; press a visit to move or cancel it.'
            : 'Drag a request or a visit to a day, or press Place. On a visit the arrow keys move it to another day or rater; nothing is done before you confirm.'}
        </p>
      )}
      <DndContext
        sensors={sensors}
        onDragStart={({ active }) => setDragged(active.data.current as Thing)}
        onDragCancel={() => setDragged(null)}
        onDragEnd={({ active, over }) => {
          setDragged(null);
          const target = over?.data.current as { raterId: string; day: string } | undefined;
          if (target) place(active.data.current as Thing, target.raterId, target.day);
        }}
        accessibility={{ screenReaderInstructions: { draggable: '' } }}
      >
        <div className={narrow ? 'stack' : 'board'}>
          {!narrow && open}
          <Asked query={board}>
            {() =>
              raters.length === 0 ? (
                <Empty title="Nobody works as a rater yet">The administrator adds raters under Users.</Empty>
              ) : narrow ? (
                <DayList
                  {...{ from, day, raters, visits, daysOff, keeper }}
                  onDay={(date) => change({ date })}
                  onOpen={setOpened}
                />
              ) : (
                <div className="board-scroll" tabIndex={0} role="region" aria-label="Week by rater">
                  <WeekGrid
                    {...{ from, raters, visits, daysOff, keeper }}
                    onOpen={setOpened}
                    onStep={stepBy}
                  />
                </div>
              )
            }
          </Asked>
          {narrow && open}
        </div>
        <DragOverlay dropAnimation={null}>
          {dragged && <div className="board-dragged">{houseOf(dragged).address}</div>}
        </DragOverlay>
      </DndContext>
      {opened && <VisitDialog entry={opened} onMove={() => move(opened)} onClose={() => setOpened(null)} />}
      {placing && <PlaceDialog placing={placing} onClose={() => setPlacing(null)} />}
    </Page>
  );
}
