import { instantOf } from '../../lib/dates.ts';

/** A visit's time as three fields: a day and two clock times at the company. */
export interface BookedTime extends Record<string, unknown> {
  day: string;
  start: string;
  end: string;
}

export function instantsOf(
  { day, start, end }: BookedTime,
  zone: string,
): { startsAt: string; endsAt: string } {
  return { startsAt: instantOf(day, start, zone), endsAt: instantOf(day, end, zone) };
}
