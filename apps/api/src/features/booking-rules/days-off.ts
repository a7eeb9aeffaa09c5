import type { Db } from '../../kernel/database/database.ts';
import { isoDate } from '../assessment/index.ts';

/** Days on which a rater does not work; the dates are the company's, yyyy-mm-dd, both included. */
export interface TimeOff {
  id: string;
  /** null = nobody works */
  raterId: string | null;
  rater: string | null;
  from: string;
  to: string;
  why: string;
  byName: string;
}

/** Days off that touch a span of dates, yyyy-mm-dd; without an end, all that are not over before `from`. Earliest first. */
export async function daysOff(db: Db, { from, to }: { from: string; to?: string }): Promise<TimeOff[]> {
  const rows = await db.dayOff.findMany({
    where: { toOn: { gte: new Date(from) }, ...(to ? { fromOn: { lte: new Date(to) } } : {}) },
    include: { rater: { select: { name: true } } },
    orderBy: [{ fromOn: 'asc' }, { toOn: 'asc' }, { id: 'asc' }],
  });
  return rows.map(({ id, raterId, rater, fromOn, toOn, why, byName }) => ({
    ...{ id, raterId, rater: rater?.name ?? null, from: isoDate(fromOn), to: isoDate(toOn), why, byName },
  }));
}

/** What keeps a rater from working on a day; undefined when he works as usual. */
export const offOn = (all: readonly TimeOff[], raterId: string, day: string): TimeOff | undefined =>
  all.find((each) => (each.raterId ?? raterId) === raterId && each.from <= day && day <= each.to);
