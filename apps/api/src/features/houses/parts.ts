import type { HouseParts } from '@countercheck/contracts';
import type { Db } from '../../kernel/database/database.ts';
import { invalid } from '../../kernel/problems/app-error.ts';

/** Parts of a house that is being registered. Ids they may carry are those of a plan and mean nothing here. */
export function newParts(houseId: string, parts: HouseParts) {
  const placed = <T extends { id?: string | undefined }>(list: readonly T[]) =>
    list.map(({ id: _id, ...part }, position) => ({ ...part, houseId, position }));
  return {
    systems: placed(parts.systems),
    rooms: placed(parts.rooms),
    appliances: placed(parts.appliances),
  };
}

export async function addParts(db: Db, parts: ReturnType<typeof newParts>): Promise<void> {
  await db.houseSystem.createMany({ data: parts.systems });
  await db.room.createMany({ data: parts.rooms });
  await db.appliance.createMany({ data: parts.appliances });
}

interface Part {
  id?: string | undefined;
  label: string;
  kind: string;
}

/** Tells kept from new parts, and refuses what would take a part away from under its readings. */
function sortOut<T extends Part>(
  path: string,
  known: readonly { id: string; label: string; kind: string }[],
  wanted: readonly T[],
  read: ReadonlySet<string>,
) {
  const kept = new Set(wanted.flatMap(({ id }) => id ?? []));
  if (kept.size < wanted.filter(({ id }) => id !== undefined).length)
    throw invalid(path, 'The same part is in the list twice.');
  const removed = known.filter(({ id }) => !kept.has(id));
  const needed = removed.find(({ id }) => read.has(id));
  if (needed) throw invalid(path, `${needed.label} has readings and cannot be removed.`);
  const placed = wanted.map(({ id, ...part }, position) => ({ id, data: { ...part, position } }));
  const changed: { id: string; data: Omit<T, 'id'> & { position: number } }[] = [];
  for (const { id, data } of placed) {
    if (id === undefined) continue;
    const before = known.find((part) => part.id === id);
    const at = `${path}.${data.position}`;
    if (!before) throw invalid(at, `${data.label} is not a part of this house.`);
    if (path === 'parts.rooms' && before.kind !== data.kind && read.has(id))
      throw invalid(`${at}.kind`, `${before.label} has readings and stays a ${before.kind}.`);
    changed.push({ id, data });
  }
  return {
    removed: removed.map(({ id }) => id),
    changed,
    added: placed.flatMap(({ id, data }) => (id === undefined ? [data] : [])),
  };
}

/** Makes a house's parts those wanted: a part with an id keeps it, so that its readings stay its own. */
export async function changeParts(db: Db, houseId: string, parts: HouseParts): Promise<void> {
  const where = { houseId };
  const readings = await db.reading.findMany({ where, distinct: ['subjectId'], select: { subjectId: true } });
  const read = new Set(readings.map(({ subjectId }) => subjectId));
  const systems = sortOut('parts.systems', await db.houseSystem.findMany({ where }), parts.systems, read);
  const rooms = sortOut('parts.rooms', await db.room.findMany({ where }), parts.rooms, read);
  const appliances = sortOut(
    'parts.appliances',
    await db.appliance.findMany({ where }),
    parts.appliances,
    read,
  );

  await db.houseSystem.deleteMany({ where: { id: { in: systems.removed } } });
  await db.room.deleteMany({ where: { id: { in: rooms.removed } } });
  await db.appliance.deleteMany({ where: { id: { in: appliances.removed } } });
  for (const { id, data } of systems.changed) await db.houseSystem.update({ where: { id }, data });
  for (const { id, data } of rooms.changed) await db.room.update({ where: { id }, data });
  for (const { id, data } of appliances.changed) await db.appliance.update({ where: { id }, data });
  const ofHouse = <T extends object>(list: T[]) => list.map((part) => ({ ...part, houseId }));
  await db.houseSystem.createMany({ data: ofHouse(systems.added) });
  await db.room.createMany({ data: ofHouse(rooms.added) });
  await db.appliance.createMany({ data: ofHouse(appliances.added) });
}
