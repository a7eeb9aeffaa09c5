import { TZDate } from '@date-fns/tz';

/** Working days around today, and the hours of a rater's day, in the company's time zone. */
export class Calendar {
  readonly #next = new Map<string, number>();

  constructor(
    readonly today: Date,
    readonly timezone: string,
  ) {}

  at(dayOffset: number, hour: number, minute = 0): Date {
    const local = new TZDate(this.today.getTime(), this.timezone);
    const date = new TZDate(
      local.getFullYear(),
      local.getMonth(),
      local.getDate() + dayOffset,
      hour,
      minute,
      0,
      this.timezone,
    );
    return new Date(date.getTime());
  }

  /** yyyy-mm-dd at the house */
  dayOf(instant: Date): string {
    const local = new TZDate(instant.getTime(), this.timezone);
    return [
      local.getFullYear(),
      String(local.getMonth() + 1).padStart(2, '0'),
      String(local.getDate()).padStart(2, '0'),
    ].join('-');
  }

  /** The nearest working day in the direction away from today; today itself counts whatever day it is. */
  workingDay(dayOffset: number): number {
    const step = dayOffset < 0 ? -1 : 1;
    for (let offset = dayOffset; offset !== 0; offset += step) {
      const day = new TZDate(this.at(offset, 12).getTime(), this.timezone).getDay();
      if (day !== 0 && day !== 6) return offset;
    }
    return dayOffset === 0 ? 0 : this.workingDay(dayOffset + 7 * step);
  }

  /** The same moment, or the next morning when people would be at home. */
  atWork(instant: Date): Date {
    const local = new TZDate(instant.getTime(), this.timezone);
    const hour = local.getHours();
    if (hour >= 7 && hour < 18) return instant;
    const wait = hour < 7 ? 7 - hour : 31 - hour;
    return new Date(instant.getTime() + wait * 3_600_000);
  }

  /** A visit that is under way at this very moment. */
  lately(): { startsAt: Date; endsAt: Date } {
    const quarter = 15 * 60_000;
    const startsAt = new Date(Math.floor(this.today.getTime() / quarter) * quarter - 6 * quarter);
    return { startsAt, endsAt: new Date(startsAt.getTime() + 10 * quarter) };
  }

  /** The next free two and a half hours of a rater on a day, or on the next day further from today. */
  slot(rater: number, dayOffset: number): { startsAt: Date; endsAt: Date } {
    const day = this.workingDay(dayOffset);
    const key = `${rater}/${day}`;
    const taken = this.#next.get(key) ?? 0;
    if (taken >= 3) return this.slot(rater, day === 0 ? 1 : day + Math.sign(day));
    this.#next.set(key, taken + 1);
    const startsAt = this.at(day, [8, 11, 14][taken] ?? 8, taken === 1 ? 0 : 15);
    return { startsAt, endsAt: new Date(startsAt.getTime() + 2.25 * 3_600_000) };
  }
}
