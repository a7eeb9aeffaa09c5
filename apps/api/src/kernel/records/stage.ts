import type { HouseStage } from '@countercheck/contracts';
import type { Actor } from '../actor.ts';
import type { Db } from '../database/database.ts';
import { record } from './events.ts';

/** Moves a house to another stage of its life, and says so in the log; nothing happens when it is there. */
export async function moveStage(
  db: Db,
  actor: Actor,
  requestId: string | null,
  house: { id: string; stage: HouseStage },
  stage: HouseStage,
  reason?: string,
): Promise<void> {
  if (house.stage === stage) return;
  await db.house.updateMany({ where: { id: house.id }, data: { stage, updatedAt: new Date() } });
  await record(db, actor, requestId, {
    action: 'stage changed',
    recordType: 'house',
    recordId: house.id,
    houseId: house.id,
    before: { stage: house.stage },
    after: { stage },
    reason: reason ?? null,
  });
}
