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
  except?: string;
}

/**
 * Runs a booking. Whether a rater is free is decided by the database's exclusion constraint alone, also
 * between two bookings at the same moment; its refusal is put into words here, in a transaction of its own.
 */
export async function sayingWho<T>(
  database: Database,
  wanted: () => WantedTime | undefined,
  booking: () => Promise<T>,
): Promise<T> {
  try {
    return await booking();
  } catch (error) {
    const time = wanted();
    if (time === undefined || postgresFault(error)?.code !== '23P01') throw error;
    throw new AppError('rater-double-booked', await otherVisit(database, time));
  }
}

async function otherVisit(database: Database, time: WantedTime): Promise<string | undefined> {
  return database.as(system, async (db) => {
    const other = await db.visit.findFirst({
      where: {
        raterId: time.raterId,
        state: { notIn: ['cancelled', 'not_ready'] },
        startsAt: { lt: time.endsAt },
        endsAt: { gt: time.startsAt },
        ...(time.except ? { id: { not: time.except } } : {}),
      },
      include: { house: { select: { address: true } }, rater: { select: { name: true } } },
    });
    if (!other) return undefined;
    const { timezone } = await companyOptions(db);
    return `${other.rater.name} is at ${other.house.address} then: ${whenInWords(other, timezone)}.`;
  });
}
