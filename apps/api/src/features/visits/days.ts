import { TZDate } from '@date-fns/tz';
import { addDays, format } from 'date-fns';

/** The instant at which a day begins where the company works, also on a day when the clocks change. */
export function startOfDay(day: string, timezone: string, later = 0): Date {
  const [year, month, date] = day.split('-').map(Number) as [number, number, number];
  return new Date(addDays(new TZDate(year, month - 1, date, timezone), later).getTime());
}

/** “Tue 2 Dec 2026, 09:00–11:00”, as the company's clocks show it. */
export function whenInWords(visit: { startsAt: Date; endsAt: Date }, timezone: string): string {
  const at = (instant: Date, pattern: string) => format(new TZDate(instant, timezone), pattern);
  return `${at(visit.startsAt, 'EEE d MMM yyyy, HH:mm')}–${at(visit.endsAt, 'HH:mm')}`;
}
