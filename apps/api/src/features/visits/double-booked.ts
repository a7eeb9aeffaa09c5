import { system } from '../../kernel/actor.ts';
import type { Database } from '../../kernel/database/database.ts';
import { postgresFault } from '../../kernel/database/faults.ts';
import { AppError } from '../../kernel/problems/app-error.ts';
import { companyOptions } from '../assessment/index.ts';
import type { Times } from './checks.ts';
import { whenInWords } from './days.ts';

export interface WantedTime extends Times {
  raterId: string;
  /** the visit that is being moved */
  visitId?: string;
}

/**
 * Runs a booking, or a move, of what is in `wanted` by then. Whether a rater is free is decided by the database's exclusion constraint alone, also
 * between two bookings at the same moment; its refusal is put into words here, in a transaction of its own.
 */
export async function sayingWho<T>(
  database: Database,
  wanted: readonly WantedTime[],
  booking: () => Promise<T>,
): Promise<T> {
  try {
    return await booking();
  } catch (error) {
    if (wanted.length === 0 || postgresFault(error)?.code !== '23P01') throw error;
    throw new AppError('rater-double-booked', await otherVisit(database, wanted));
  }
}

async function otherVisit(database: Database, wanted: readonly WantedTime[]): Promise<string | undefined> {
  return database.as(system, async (db) => {
    const other = await db.visit.findFirst({
      where: {
        state: { notIn: ['cancelled', 'not_ready'] },
        // What is moved together is not in its own way.
        id: { notIn: wanted.flatMap(({ visitId }) => visitId ?? []) },
        OR: wanted.map(({ raterId, startsAt, endsAt }) => ({
          ...{ raterId, startsAt: { lt: endsAt }, endsAt: { gt: startsAt } },
        })),
      },
      orderBy: { startsAt: 'asc' },
      include: { house: { select: { address: true } }, rater: { select: { name: true } } },
    });
    if (!other) return undefined;
    const { timezone } = await companyOptions(db);
    return `${other.rater.name} is at ${other.house.address} then: ${whenInWords(other, timezone)}.`;
  });
}
