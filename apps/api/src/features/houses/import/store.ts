import type { Actor } from '../../../kernel/actor.ts';
import type { Db } from '../../../kernel/database/database.ts';
import { record } from '../../../kernel/records/events.ts';
import { addParts, newParts } from '../parts.ts';
import type { HouseToAdd } from './check.ts';

// PostgreSQL takes 65,535 values a statement at most.
const batch = 500;

/** Stores checked houses with their parts. Their verdicts are computed afterwards, in the run of the import. */
export async function storeHouses(
  db: Db,
  actor: Actor,
  requestId: string,
  of: { ruleSetId: string; importId: string },
  houses: readonly HouseToAdd[],
): Promise<void> {
  for (let from = 0; from < houses.length; from += batch) {
    const some = houses.slice(from, from + batch);
    const rows = await db.house.createManyAndReturn({
      data: some.map(({ facts }) => ({ ...facts, ...of })),
      select: { id: true, communityId: true, lot: true },
    });
    const ids = new Map(rows.map(({ id, communityId, lot }) => [`${communityId}/${lot}`, id]));
    const stored = some.map((house) => ({
      ...house,
      id: ids.get(`${house.facts.communityId}/${house.facts.lot}`)!,
    }));
    const parts = stored.map((house) => newParts(house.id, house.parts));
    for (const systems of cut(parts.flatMap((each) => each.systems)))
      await addParts(db, { systems, rooms: [], appliances: [] });
    for (const rooms of cut(parts.flatMap((each) => each.rooms)))
      await addParts(db, { systems: [], rooms, appliances: [] });
    for (const appliances of cut(parts.flatMap((each) => each.appliances)))
      await addParts(db, { systems: [], rooms: [], appliances });
    await record(
      db,
      actor,
      requestId,
      ...stored.map(({ id, facts }) => ({
        action: 'house registered' as const,
        recordType: 'house',
        recordId: id,
        houseId: id,
        after: { ...facts, ...of },
        reason: 'from a file',
      })),
    );
  }
}

function cut<T>(list: readonly T[]): T[][] {
  const pieces: T[][] = [];
  for (let from = 0; from < list.length; from += 2000) pieces.push(list.slice(from, from + 2000));
  return pieces;
}
