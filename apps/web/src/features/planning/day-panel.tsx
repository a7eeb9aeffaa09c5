import { Button, Group } from '@mantine/core';
import type { PlanDay, PlanStop } from '@countercheck/contracts';
import { Link } from '@tanstack/react-router';
import { Tag } from '../../components/marks/index.ts';
import { Panel } from '../../components/page/index.ts';
import { RowsTable, type Column } from '../../components/table/index.ts';
import { showMoment, showTime, showWeekday } from '../../lib/dates.ts';
import { useMe } from '../../lib/session.ts';
import { visitKindWords } from '../../lib/words/work.ts';
import { choiceWords, driveWords, roadWords, stopWords } from './words.ts';

interface DayPanelProps {
  day: PlanDay;
  unitSystem: 'us' | 'si';
  decide: { busy: boolean; accept: (ids: string[]) => void; reject: (ids: string[]) => void };
}

/** One rater's day as it is proposed. */
export function DayPanel({ day, decide, unitSystem }: DayPanelProps) {
  const zone = useMe().company.timezone;
  const time = (at: string) => showTime(at, zone);
  const open = day.stops.filter(({ state }) => state === 'proposed');
  const columns: Column<PlanStop>[] = [
    {
      title: 'House',
      head: true,
      cell: (stop) => (
        <span id={`stop-${stop.id}`}>
          <Link to={`/houses/${stop.house.id}`}>{stop.house.address}</Link>
          {stop.choice && <span className="plan-why small soft">{choiceWords(stop.choice)}</span>}
        </span>
      ),
    },
    { title: 'Visit', cell: (stop) => visitKindWords[stop.kind] },
    { title: 'Time', cell: (stop) => `${time(stop.startsAt)} – ${time(stop.endsAt)}` },
    {
      title: 'Way there',
      figure: true,
      cell: (stop) => `${driveWords(stop.driveMinutes)}, ${roadWords(stop.driveKm, unitSystem)}`,
    },
    {
      title: 'Now booked',
      cell: (stop) => (stop.before ? `${stop.before.rater}, ${showMoment(stop.before.startsAt, zone)}` : '–'),
    },
    { title: 'State', cell: (stop) => <State stop={stop} /> },
    {
      title: 'Decide',
      cell: (stop) =>
        stop.state !== 'proposed' ? (
          (stop.decidedBy ?? '–')
        ) : (
          <Group gap="xs">
            <Button
              size="compact-sm"
              disabled={decide.busy}
              aria-label={`Accept ${stop.house.address}`}
              onClick={() => decide.accept([stop.id])}
            >
              Accept
            </Button>
            <Button
              size="compact-sm"
              variant="default"
              disabled={decide.busy}
              aria-label={`Set ${stop.house.address} aside`}
              onClick={() => decide.reject([stop.id])}
            >
              Set aside
            </Button>
          </Group>
        ),
    },
  ];
  const title = `${day.rater.name}, ${showWeekday(day.date)}`;
  return (
    <Panel
      title={title}
      flush
      actions={
        open.length > 1 && (
          <Button
            size="xs"
            variant="default"
            disabled={decide.busy}
            aria-label={`Accept the day: ${title}`}
            onClick={() => decide.accept(open.map(({ id }) => id))}
          >
            Accept the day
          </Button>
        )
      }
    >
      <p className="plan-day">
        Leaves at {time(day.leavesAt)}, is back at {time(day.returnsAt)}
        {day.pause ? `, break from ${time(day.pause.from)} to ${time(day.pause.to)}` : ''}; on the road{' '}
        {driveWords(day.driveMinutes)}, {roadWords(day.driveKm, unitSystem)}.
      </p>
      <RowsTable caption={`Visits: ${title}`} columns={columns} rows={day.stops} keyOf={({ id }) => id} />
    </Panel>
  );
}

function State({ stop }: { stop: PlanStop }) {
  const tone = stop.state === 'accepted' ? 'good' : stop.state === 'proposed' ? 'brass' : 'plain';
  return (
    <>
      <Tag tone={tone}>{stopWords[stop.state]}</Tag>
      {stop.refusal && stop.state === 'proposed' && <p role="alert">Could not be booked: {stop.refusal}</p>}
    </>
  );
}
