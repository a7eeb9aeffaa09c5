import type { BoardVisit, DayOff, RaterProfile } from '@countercheck/contracts';
import { useDroppable } from '@dnd-kit/core';
import type { ReactNode } from 'react';
import { Tag } from '../../../components/marks/index.ts';
import { addDays, clockOf, showShortWeekday, today } from '../../../lib/dates.ts';
import { useMe } from '../../../lib/session.ts';
import { VisitBlock, type Step } from './cards.tsx';
import { offWords } from './off-words.ts';

interface WeekGridProps {
  from: string;
  raters: readonly RaterProfile[];
  visits: readonly BoardVisit[];
  daysOff: readonly DayOff[];
  keeper: boolean;
  onOpen: (entry: BoardVisit) => void;
  onStep: (entry: BoardVisit, step: Step) => void;
}

const daysOf = (from: string) => Array.from({ length: 7 }, (_, index) => addDays(from, index));

/** The days of a week on which somebody works or a visit is booked. */
export function workDays(
  from: string,
  raters: readonly RaterProfile[],
  visits: readonly BoardVisit[],
  zone: string,
): string[] {
  return daysOf(from).filter(
    (day, index) =>
      raters.some(({ workingHours }) => workingHours.some(({ weekday }) => weekday === index + 1)) ||
      visits.some(({ visit }) => clockOf(visit.startsAt, zone).date === day),
  );
}

/** Raters down, days across; every day of a rater takes what is dropped on it. */
export function WeekGrid({ from, raters, visits, daysOff, keeper, onOpen, onStep }: WeekGridProps) {
  const zone = useMe().company.timezone;
  const now = today(zone);
  const days = workDays(from, raters, visits, zone);
  return (
    <table className="board-grid">
      <caption className="visually-hidden">Visits by rater and day</caption>
      <thead>
        <tr>
          <th scope="col">Rater</th>
          {days.map((day) => (
            <th key={day} scope="col" data-today={day === now}>
              {showShortWeekday(day)}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {raters.map(({ rater, held }) => (
          <tr key={rater.id}>
            <th scope="row">
              {rater.name}
              {held && <Tag tone="bad">Held</Tag>}
            </th>
            {days.map((day) => (
              <Cell
                key={day}
                raterId={rater.id}
                day={day}
                keeper={keeper}
                off={offWords(daysOff, rater.id, day)}
              >
                {visits
                  .filter(
                    ({ visit }) => visit.rater.id === rater.id && clockOf(visit.startsAt, zone).date === day,
                  )
                  .map((entry) => (
                    <VisitBlock
                      key={entry.visit.id}
                      entry={entry}
                      keeper={keeper}
                      onOpen={() => onOpen(entry)}
                      onStep={(step) => onStep(entry, step)}
                    />
                  ))}
              </Cell>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

interface CellProps {
  raterId: string;
  day: string;
  keeper: boolean;
  off: string | undefined;
  children: ReactNode;
}

function Cell({ raterId, day, keeper, off, children }: CellProps) {
  const { setNodeRef, isOver } = useDroppable({
    id: `${raterId} ${day}`,
    data: { raterId, day },
    disabled: !keeper,
  });
  return (
    <td ref={setNodeRef} data-over={isOver} data-off={off !== undefined}>
      {off && <p className="board-off small">{off}</p>}
      <div className="board-cell">{children}</div>
    </td>
  );
}
