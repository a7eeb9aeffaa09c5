import type { UserActor } from '../../kernel/actor.ts';
import type { Db } from '../../kernel/database/database.ts';
import { AppError } from '../../kernel/problems/app-error.ts';

/** Whether this person measured anything in the house: two people stand behind every release. */
export async function isOwnWork(db: Db, actor: UserActor, houseId: string): Promise<boolean> {
  const visits = await db.visit.count({
    where: { houseId, raterId: actor.id, state: { not: 'cancelled' } },
  });
  if (visits > 0) return true;
  return (await db.reading.count({ where: { houseId, takenById: actor.id } })) > 0;
}

/** As far as a rater reads and answers what was found: whoever only measured a second time has no part in the file. */
export async function measuredFirst(db: Db, actor: UserActor, houseId: string): Promise<boolean> {
  const first = { kind: { not: 'quality' as const } };
  const visits = await db.visit.count({
    where: { houseId, raterId: actor.id, ...first, state: { not: 'cancelled' } },
  });
  if (visits > 0) return true;
  return (await db.reading.count({ where: { houseId, takenById: actor.id, visit: first } })) > 0;
}

export async function refuseOwnWork(db: Db, actor: UserActor, houseId: string): Promise<void> {
  if (await isOwnWork(db, actor, houseId)) throw new AppError('own-work');
}
