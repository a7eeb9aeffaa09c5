import type { HouseDetail, HouseStage } from '@countercheck/contracts';
import type { Actor } from '../../kernel/actor.ts';
import { asSystem } from '../../kernel/database/as-system.ts';
import type { Db } from '../../kernel/database/database.ts';
import { AppError, found } from '../../kernel/problems/app-error.ts';
import { assessHouse } from '../assessment/index.ts';
import { houseDetailInclude, presentHouse } from './present.ts';

/** How many items stand how; worked out now for an imported house that nothing was done to yet. */
async function countsOf(db: Db, actor: Actor, houseId: string): Promise<HouseDetail['counts']> {
  const groups = await db.itemResult.groupBy({ by: ['status'], where: { houseId }, _count: true });
  if (groups.length === 0)
    return asSystem(db, actor, async () => (await assessHouse(db, houseId)).scorecard.counts);
  const counts = { pass: 0, fail: 0, exempt: 0, 'not-applicable': 0, waiting: 0 };
  for (const { status, _count } of groups) counts[status as keyof typeof counts] = _count;
  return counts;
}

export async function loadHouse(db: Db, actor: Actor, id: string) {
  const row = found(await db.house.findUnique({ where: { id }, include: houseDetailInclude }), 'house');
  return presentHouse(row, await countsOf(db, actor, id));
}

export interface LockedHouse {
  id: string;
  stage: HouseStage;
  builderId: string;
  updatedAt: Date;
}

/** The house, kept from being changed by anybody else until this transaction ends. */
export async function lockHouse(db: Db, id: string): Promise<LockedHouse> {
  const [row] = await db.$queryRaw<LockedHouse[]>`
    SELECT id, stage::text, builder_id AS "builderId", updated_at AS "updatedAt"
    FROM houses WHERE id = ${id}::uuid FOR UPDATE`;
  return found(row, 'house');
}

export function refuseSealed({ stage }: { stage: HouseStage }): void {
  if (stage === 'released') throw new AppError('file-sealed');
}
