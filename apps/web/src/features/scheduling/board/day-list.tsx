import type { BoardVisit, DayOff, RaterProfile } from '@countercheck/contracts';
import { Choice } from '../../../components/fields/index.ts';
import { Panel } from '../../../components/page/index.ts';
import { clockOf, showWeekday } from '../../../lib/dates.ts';
import { useMe } from '../../../lib/session.ts';
import { VisitBlock } from './cards.tsx';
import { offWords } from './off-words.ts';
import { workDays } from './week-grid.tsx';

interface DayListProps {
  from: string;
  day: string;
  raters: readonly RaterProfile[];
  visits: readonly BoardVisit[];
  daysOff: readonly DayOff[];
  keeper: boolean;
  onDay: (day: string) => void;
  onOpen: (entry: BoardVisit) => void;
}

/** One day of the board for a narrow screen: rater by rater. */
export function DayList({ from, day, raters, visits, daysOff, keeper, onDay, onOpen }: DayListProps) {
  const zone = useMe().company.timezone;
  const days = workDays(from, raters, visits, zone);
  const ofDay = visits.filter(({ visit }) => clockOf(visit.startsAt, zone).date === day);
  return (
    <div className="stack">
      <Choice
        label="Day"
        value={day}
        options={(days.includes(day) ? days : [day, ...days].sort()).map((each) => ({
          value: each,
          label: showWeekday(each),
        }))}
        onChange={(next) => next && onDay(next)}
      />
      {raters.map(({ rater, held }) => {
        const off = offWords(daysOff, rater.id, day);
        const own = ofDay.filter(({ visit }) => visit.rater.id === rater.id);
        return (
          <Panel key={rater.id} title={rater.name}>
            <div className="board-cell">
              {held && <p className="small">Held by the quality manager: {held}</p>}
              {off && <p className="small">{off}</p>}
              {own.length === 0 && !off && <p className="soft small">No visit</p>}
              {own.map((entry) => (
                <VisitBlock key={entry.visit.id} entry={entry} keeper={keeper} onOpen={() => onOpen(entry)} />
              ))}
            </div>
          </Panel>
        );
      })}
    </div>
  );
}
