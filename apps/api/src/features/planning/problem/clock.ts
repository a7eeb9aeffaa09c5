import { TZDate } from '@date-fns/tz';
import { addDays, differenceInCalendarDays, format, parseISO } from 'date-fns';
import { isoDate } from '../../assessment/index.ts';

/** The days of a plan on the company's clocks, with minutes counted from their first midnight. */
export interface PlanClock {
  dates: string[];
  from: Date;
  to: Date;
  minute(instant: Date): number;
  instant(minute: number): Date;
  /** minute of a time of day, such as "08:30", also on a day when the clocks change */
  at(day: number, time: string): number;
  /** first minute of a day; of the one after the last too */
  starts(day: number): number;
  weekday(day: number): number;
}

export function planClock(fromOn: Date, toOn: Date, timezone: string): PlanClock {
  const days = differenceInCalendarDays(toOn, fromOn) + 1;
  const on = (day: number) => isoDate(addDays(fromOn, day));
  const local = (day: number, hours: number, minutes: number) => {
    const [year, month, date] = on(day).split('-').map(Number) as [number, number, number];
    return new Date(new TZDate(year, month - 1, date, hours, minutes, timezone).getTime());
  };
  const from = local(0, 0, 0);
  const minute = (instant: Date) => Math.round((instant.getTime() - from.getTime()) / 60_000);
  return {
    dates: Array.from({ length: days }, (_, day) => on(day)),
    ...{ from, to: local(days, 0, 0), minute },
    instant: (at) => new Date(from.getTime() + at * 60_000),
    at(day, time) {
      const [hours, minutes] = time.split(':').map(Number) as [number, number];
      return minute(local(day, hours, minutes));
    },
    starts: (day) => minute(local(day, 0, 0)),
    weekday: (day) => new Date(`${on(day)}T12:00:00Z`).getUTCDay() || 7,
  };
}

/** A calendar date (yyyy-mm-dd) as people write it, e.g. Tue, Dec 1. */
export const dayWords = (date: string): string => format(parseISO(date), 'EEE, MMM d');
