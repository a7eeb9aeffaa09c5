import type { Visit } from '@countercheck/contracts';
import { addDays, clockOf } from '../../lib/dates.ts';

/** Visits under the day on which they start at the company, every day of the span once, early ones first. */
export function byDay(visits: readonly Visit[], from: string, to: string, zone: string) {
  const days: { date: string; visits: Visit[] }[] = [];
  for (let date = from; date <= to; date = addDays(date, 1)) days.push({ date, visits: [] });
  for (const visit of visits.toSorted((a, b) => a.startsAt.localeCompare(b.startsAt))) {
    const { date } = clockOf(visit.startsAt, zone);
    days.find((day) => day.date === date)?.visits.push(visit);
  }
  return days;
}
