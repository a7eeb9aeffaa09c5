import type { RaterProfile, Visit } from '@countercheck/contracts';
import { clockOf } from '../../../lib/dates.ts';

const minutesOf = (clock: string) => Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3, 5));
export const clockAt = (minutes: number) =>
  `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`;
const step = 15;
/** Left for each way, also for the first one of the day, until the server says how long it takes. */
const wayMinutes = 30;

/**
 * The first time of a day at which a rater is free for so many minutes, with half an hour for the way from where
 * the day begins and between visits: within his hours where it fits, and otherwise after his last visit. Clock times of the company.
 */
export function freeStart(
  profile: Pick<RaterProfile, 'workingHours'>,
  visits: readonly Pick<Visit, 'startsAt' | 'endsAt' | 'state'>[],
  day: string,
  minutes: number,
  zone: string,
): { start: string; end: string } {
  const weekday = ((new Date(`${day}T12:00:00Z`).getUTCDay() + 6) % 7) + 1;
  const hours = profile.workingHours.find((each) => each.weekday === weekday);
  const taken = visits
    .filter((each) => each.state !== 'cancelled' && each.state !== 'not_ready')
    .filter((each) => clockOf(each.startsAt, zone).date === day)
    .map((each) => ({
      from: minutesOf(clockOf(each.startsAt, zone).time),
      // What goes on past midnight fills the rest of its day.
      to: clockOf(each.endsAt, zone).date === day ? minutesOf(clockOf(each.endsAt, zone).time) : 24 * 60,
    }))
    .toSorted((a, b) => a.from - b.from);
  let start = hours ? minutesOf(hours.from) + wayMinutes : 8 * 60;
  for (const { from, to } of taken)
    if (from - wayMinutes < start + minutes) start = Math.max(start, to + wayMinutes);
  start = Math.min(Math.ceil(start / step) * step, 24 * 60 - step);
  return { start: clockAt(start), end: clockAt(Math.min(start + minutes, 24 * 60 - 1)) };
}
