import type { Visit } from '@countercheck/contracts';
import type { Db } from '../../kernel/database/database.ts';
import { AppError, invalid } from '../../kernel/problems/app-error.ts';
import { whenInWords } from './days.ts';

// Whoever books for right now picks a round quarter of an hour that has just gone by.
const graceMs = 3_600_000;
const longestMs = 14 * 3_600_000;

export interface Times {
  startsAt: Date;
  endsAt: Date;
}

export function checkTimes({ startsAt, endsAt }: Times): void {
  const length = endsAt.getTime() - startsAt.getTime();
  if (length <= 0 || length > longestMs)
    throw invalid('endsAt', 'The end lies after the start, at most 14 hours');
  if (startsAt.getTime() < Date.now() - graceMs) throw invalid('startsAt', 'This time lies in the past.');
}

/**
 * A rater who can be booked, held until this transaction ends. The exclusion constraint alone would let two
 * bookings of one rater at the same moment wait for each other until one is given up as a deadlock.
 */
export async function bookableRater(db: Db, raterId: string): Promise<void> {
  await holdRater(db, raterId);
  const rater = await db.user.findUnique({ where: { id: raterId } });
  if (!rater?.active || rater.role !== 'rater')
    throw invalid('raterId', 'Nobody with this id works as a rater.');
}

export async function holdRater(db: Db, raterId: string): Promise<void> {
  await db.$queryRaw`SELECT id FROM users WHERE id = ${raterId}::uuid FOR NO KEY UPDATE`;
}

/** A house is measured by one rater at a time; only the quality manager's visit may accompany another. */
export async function refuseSecondRater(
  db: Db,
  visit: Times & { id?: string; houseId: string; kind: Visit['kind'] },
  timezone: string,
): Promise<void> {
  if (visit.kind === 'quality') return;
  const other = await db.visit.findFirst({
    where: {
      houseId: visit.houseId,
      kind: { not: 'quality' },
      state: { in: ['booked', 'in_progress'] },
      startsAt: { lt: visit.endsAt },
      endsAt: { gt: visit.startsAt },
      ...(visit.id ? { id: { not: visit.id } } : {}),
    },
    include: { rater: { select: { name: true } } },
  });
  if (other)
    throw new AppError(
      'conflict',
      `${other.rater.name} visits this house at that time already: ${whenInWords(other, timezone)}.`,
    );
}
