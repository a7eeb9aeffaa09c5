import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApp, type TestApp } from '../../../../../tests/support/app.ts';
import type { Actor } from '../actor.ts';
import { system } from '../actor.ts';
import type { Db } from './database.ts';
import { openDatabase } from './database.ts';
import { databaseProblem, postgresFault } from './faults.ts';

let service: TestApp;
beforeAll(async () => {
  service = await startApp();
});
afterAll(() => service.close());

/** What the kernel makes of a refusal that really came from PostgreSQL, through Prisma and its adapter. */
async function fault(work: (db: Db) => Promise<unknown>, actor: Actor = system) {
  try {
    await service.app.database.as(actor, work);
  } catch (error) {
    return { state: postgresFault(error)?.code, problem: databaseProblem(error)?.code };
  }
  return 'nothing was refused';
}

const visit = (startsAt: string, endsAt: string) => ({
  houseId: service.company.house.id,
  raterId: service.company.users.rater.id,
  kind: 'final' as const,
  startsAt: new Date(startsAt),
  endsAt: new Date(endsAt),
});
const builderActor = (): Actor => {
  const { id, name } = service.company.users.builder;
  return { kind: 'user', id, name, role: 'builder', builderId: service.company.builder.id };
};

it('knows a value that is there already, asked through the client and through SQL', async () => {
  const already = { state: '23505', problem: 'already-exists' };
  const { name } = service.company.builder;
  expect(await fault((db) => db.builder.create({ data: { name } }))).toEqual(already);
  expect(
    await fault(
      (db) => db.$executeRaw`INSERT INTO builders (id, name, updated_at)
        VALUES (gen_random_uuid(), ${name}, now())`,
    ),
  ).toEqual(already);
});

it('knows a rater booked twice', async () => {
  const booked = { state: '23P01', problem: 'rater-double-booked' };
  await service.app.database.as(system, (db) =>
    db.visit.create({ data: visit('2026-12-01T15:00:00Z', '2026-12-01T17:00:00Z') }),
  );
  const overlapping = visit('2026-12-01T16:59:00Z', '2026-12-01T18:00:00Z');
  expect(await fault((db) => db.visit.create({ data: overlapping }))).toEqual(booked);
  expect(await fault((db) => db.visit.createMany({ data: [overlapping] }))).toEqual(booked);
  const { startsAt, endsAt } = overlapping;
  expect(await fault((db) => db.visit.updateMany({ data: { startsAt, endsAt } }))).toBe(
    'nothing was refused',
  );
  expect(
    await fault(
      (db) => db.$executeRaw`INSERT INTO visits (id, house_id, rater_id, kind, starts_at, ends_at, updated_at)
        SELECT gen_random_uuid(), house_id, rater_id, kind, starts_at, ends_at, now() FROM visits`,
    ),
  ).toEqual(booked);
});

it('knows a record that refers to nothing', async () => {
  const nowhere = { ...visit('2026-12-03T15:00:00Z', '2026-12-03T17:00:00Z'), houseId: crypto.randomUUID() };
  const missing = { state: '23503', problem: 'not-found' };
  expect(await fault((db) => db.visit.create({ data: nowhere }))).toEqual(missing);
});

it('knows a row to change that is not there, or not for this actor', async () => {
  const missing = { state: '02000', problem: 'not-found' };
  const data = { note: 'x' };
  const { otherHouse } = service.company;
  expect(await fault((db) => db.house.update({ where: { id: crypto.randomUUID() }, data }))).toEqual(missing);
  const change = (db: Db) => db.house.update({ where: { id: otherHouse.id }, data });
  expect(await fault(change, builderActor())).toEqual(missing);
});

it('knows what row-level security and missing grants refuse', async () => {
  const refused = { state: '42501', problem: 'not-allowed' };
  const { otherHouse } = service.company;
  expect(await fault((db) => db.builder.create({ data: { name: 'Mine' } }), builderActor())).toEqual(refused);
  const request = { houseId: otherHouse.id, askedById: otherHouse.id, askedByName: 'x' };
  expect(await fault((db) => db.reinspectionRequest.createMany({ data: [request] }), builderActor())).toEqual(
    refused,
  );
  expect(await fault((db) => db.event.deleteMany())).toEqual(refused);
  expect(await fault((db) => db.$executeRaw`DELETE FROM houses`)).toEqual(refused);
});

it('knows that there is no room: the disk is full, or the memory', async () => {
  for (const state of ['53100', '53200'])
    expect(
      await fault((db) =>
        db.$executeRawUnsafe(`DO $$ BEGIN RAISE EXCEPTION 'no room' USING ERRCODE = '${state}'; END $$`),
      ),
    ).toEqual({ state, problem: 'database-unavailable' });
});

it('knows two transactions that wait for each other', async () => {
  const [one, two] = [service.company.builder.id, service.company.otherBuilder.id];
  let arrived = 0;
  let meet: () => void;
  const met = new Promise<void>((resolve) => (meet = resolve));
  const inOrder = (first: string, second: string) => async (db: Db) => {
    await db.builder.update({ where: { id: first }, data: { note: 'x' } });
    // Each holds its first row before either asks for the other's.
    if (++arrived === 2) meet();
    await met;
    await db.builder.update({ where: { id: second }, data: { note: 'x' } });
  };
  const both = await Promise.all([fault(inOrder(one, two)), fault(inOrder(two, one))]);
  expect(both).toContainEqual({ state: '40P01', problem: 'conflict' });
});

it('calls a check that failed, or a fault in a statement, a fault of ours', async () => {
  const backwards = visit('2026-12-04T17:00:00Z', '2026-12-04T15:00:00Z');
  expect(await fault((db) => db.visit.create({ data: backwards }))).toMatchObject({ problem: undefined });
  expect(await fault((db) => db.$queryRaw`SELECT nonsense`)).toMatchObject({ problem: undefined });
});

it('knows a database that is not there', async () => {
  const away = openDatabase('postgresql://nobody:x@127.0.0.1:1/none', 2, () => undefined);
  const error = await away.as(system, (db) => db.builder.count()).catch((reason: unknown) => reason);
  await away.close();
  expect(databaseProblem(error)?.code).toBe('database-unavailable');
});

it('stores an instant as it was meant and reads it back the same', async () => {
  const at = '2026-07-01T23:30:00.123Z';
  const [row] = await service.app.database.as(system, async (db) => {
    const data = { ...visit('2026-07-01T20:00:00Z', at), state: 'cancelled' as const };
    const { id } = await db.visit.create({ data });
    expect((await db.visit.findUniqueOrThrow({ where: { id } })).endsAt.toISOString()).toBe(at);
    return db.$queryRaw<{ text: string; read: Date }[]>`
      SELECT ends_at::text AS text, ends_at AS read FROM visits WHERE id = ${id}::uuid`;
  });
  expect(row?.text).toBe('2026-07-01 23:30:00.123+00');
  expect(row?.read.toISOString()).toBe(at);
});
