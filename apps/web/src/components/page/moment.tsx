import { showDate, showDay, showInZone, showMoment } from '../../lib/dates.ts';
import { useMe } from '../../lib/session.ts';

/** An instant on the company's clock. */
export function Moment({ at, day = false }: { at: string | null; day?: boolean }) {
  const zone = useMe().company.timezone;
  if (at === null) return <>–</>;
  return (
    <time dateTime={at} className={day ? 'figure' : ''} title={showInZone(at, zone)}>
      {day ? showDay(at, zone) : showMoment(at, zone)}
    </time>
  );
}

/** A calendar date. */
export function DateText({ date }: { date: string | null }) {
  if (date === null) return <>–</>;
  return (
    <time dateTime={date} className="figure">
      {showDate(date)}
    </time>
  );
}
