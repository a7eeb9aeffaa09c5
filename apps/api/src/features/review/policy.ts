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

export async function refuseOwnWork(db: Db, actor: UserActor, houseId: string): Promise<void> {
  if (await isOwnWork(db, actor, houseId)) throw new AppError('own-work');
}
