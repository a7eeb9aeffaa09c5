import { Button } from '@mantine/core';
import type { Visit } from '@countercheck/contracts';
import { VisitsTable } from '../../components/booking/index.ts';
import { Tag } from '../../components/marks/index.ts';
import { Panel } from '../../components/page/index.ts';
import { Empty } from '../../components/states/index.ts';
import { showWeekday, today } from '../../lib/dates.ts';
import { useMe } from '../../lib/session.ts';
import { byDay } from './by-day.ts';

interface DayPanelsProps {
  from: string;
  to: string;
  visits: readonly Visit[];
  onBook?: (day: string) => void;
}

export function DayPanels({ from, to, visits, onBook }: DayPanelsProps) {
  const zone = useMe().company.timezone;
  const now = today(zone);
  return byDay(visits, from, to, zone).map((day) => (
    <Panel
      key={day.date}
      title={showWeekday(day.date)}
      flush
      actions={
        <>
          {day.date === now && <Tag tone="brass">Today</Tag>}
          {onBook && day.date >= now && (
            <Button
              size="compact-sm"
              variant="subtle"
              aria-label={`Book on ${showWeekday(day.date)}`}
              onClick={() => onBook(day.date)}
            >
              Book
            </Button>
          )}
        </>
      }
    >
      {day.visits.length === 0 ? (
        <Empty title="No visit" />
      ) : (
        <VisitsTable caption={`Visits on ${showWeekday(day.date)}`} visits={day.visits} about="day" />
      )}
    </Panel>
  ));
}
