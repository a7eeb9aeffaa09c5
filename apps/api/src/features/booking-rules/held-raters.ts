import type { Db } from '../../kernel/database/database.ts';
import { AppError } from '../../kernel/problems/app-error.ts';
import { companyOptions, dayAt } from '../assessment/index.ts';

export interface HeldRater {
  holdId: string;
  raterId: string;
  from: Date;
  reason: string;
  correctiveActionId: string | null;
}

/** Holds in force for a visit that begins in the span; without one, all that are not lifted. Earliest first. */
export async function heldRaters(db: Db, { to }: { from?: Date; to?: Date } = {}): Promise<HeldRater[]> {
  const rows = await db.raterHold.findMany({
    where: { liftedAt: null, ...(to ? { from: { lte: to } } : {}) },
    orderBy: [{ from: 'asc' }, { id: 'asc' }],
  });
  return rows.map(({ id, raterId, from, reason, correctiveActionId }) => ({
    ...{ holdId: id, raterId, from, reason, correctiveActionId },
  }));
}

/**
 * Refuses a visit for a rater who is held when it begins, with `rater-held` and the reason. Called with the rater's
 * row held, so that a hold placed at the same moment comes before or after; a trigger on visits refuses too.
 */
export async function refuseHeldRater(db: Db, raterId: string, startsAt: Date): Promise<void> {
  const hold = await db.raterHold.findFirst({
    where: { raterId, liftedAt: null, from: { lte: startsAt } },
    include: { rater: { select: { name: true } } },
    orderBy: [{ from: 'asc' }, { id: 'asc' }],
  });
  if (!hold) return;
  const { timezone } = await companyOptions(db);
  throw new AppError(
    'rater-held',
    `${hold.rater.name} is held since ${dayAt(hold.from, timezone)}: ${hold.reason}`,
  );
}
