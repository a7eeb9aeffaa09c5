import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { withClient } from '@countercheck/host/database';
import { startApp, type Client, type TestApp } from '../../../../../tests/support/app.ts';
import { bookVisit, partsOf, readingOf, signFigures } from '../../../../../tests/support/house-life.ts';
import { system } from '../actor.ts';
import { sweepKeys } from './once.ts';

let test: TestApp;
let rater: Client;
let visit: string;

beforeAll(async () => {
  test = await startApp();
  rater = await test.as('rater');
  await signFigures(test, test.company.house);
  visit = await bookVisit(test, test.company.house.id);
});
afterAll(() => test.close());

const inside = <T>(work: Parameters<typeof test.app.database.as<T>>[1]) => test.app.database.as(system, work);
const keyed = (key: string, url: string, payload: object, client = rater) =>
  client.send({ method: 'POST', url: `/api${url}`, payload, headers: { 'idempotency-key': key } });
const pressure = (value: number) =>
  readingOf('supply-static', partsOf(test.company.house).system, test.company.instruments.manometer.id, {
    values: { pressure: value },
  });

it('does a deed once for a key and gives its answer again', async () => {
  const key = randomUUID();
  const url = `/visits/${visit}/readings?answer=receipt`;
  const body = pressure(0.09);
  const first = await keyed(key, url, body);
  expect(first.statusCode).toBe(201);
  expect(first.json()).toEqual({ kept: body.id, visitState: 'in_progress' });
  const again = await keyed(`"${key}"`, url, body);
  expect([again.statusCode, again.json()]).toEqual([201, first.json()]);

  expect((await keyed(key, url, { ...body, takenAt: new Date(0).toISOString() })).json()).toMatchObject({
    code: 'same-key-other-body',
  });
  expect((await keyed(key, `/visits/${visit}/readings`, body)).statusCode).toBe(422);
  // Another person's key of the same text is another key.
  const other = await keyed(key, url, body, await test.as('otherRater'));
  expect(other.json()).toMatchObject({ code: 'visit-not-yours' });
});

it('leaves no trace of a deed that was refused, so that it can be asked again', async () => {
  const key = randomUUID();
  const url = `/visits/${visit}/submission`;
  const refused = await keyed(key, url, {});
  expect(refused.json()).toMatchObject({ code: 'visit-not-complete' });
  const other = await bookVisit(test, test.company.house.id);
  const done = await keyed(key, `/visits/${other}/not-ready`, { cause: 'No power' });
  expect(done.json()).toMatchObject({ state: 'not_ready' });
});

it('says while a deed is being done that it is', async () => {
  const key = randomUUID();
  const body = { cause: 'Locked' };
  const other = await bookVisit(test, test.company.house.id);
  const url = `/visits/${other}/not-ready`;
  let release!: () => void;
  const held = new Promise<void>((resolve) => (release = resolve));
  let holding!: () => void;
  const holds = new Promise<void>((resolve) => (holding = resolve));
  // The first request waits at its visit, which somebody else holds.
  const holder = inside(async (db) => {
    await db.$queryRaw`SELECT id FROM visits WHERE id = ${other}::uuid FOR UPDATE`;
    holding();
    await held;
  });
  await holds;
  // A request of the tests is sent when somebody waits for its answer.
  const first = Promise.resolve(keyed(key, url, body));
  const waits = async () => {
    const { rows } = await withClient(test.urls.ownerUrl, (client) =>
      client.query<{ waits: boolean }>(
        `SELECT EXISTS (SELECT FROM pg_locks WHERE NOT granted AND locktype = 'transactionid') AS waits`,
      ),
    );
    return rows[0]!.waits;
  };
  await expect.poll(waits, { timeout: 20_000 }).toBe(true);
  expect((await keyed(key, url, body)).json()).toMatchObject({ code: 'request-in-flight' });
  release();
  await holder;
  const answer = await first;
  expect(answer.statusCode).toBe(200);
  expect((await keyed(key, url, body)).json()).toEqual(answer.json());
  const told = await inside((db) =>
    db.event.count({ where: { action: 'visit not ready', recordId: other } }),
  );
  expect(told).toBe(1);
});

it('refuses a key where it would do nothing, and one that is none', async () => {
  const refused = await keyed(randomUUID(), `/visits/${visit}/reopening`, { reason: 'x' });
  expect(refused.json()).toMatchObject({ code: 'invalid-input' });
  expect((await keyed('""', `/visits/${visit}/submission`, {})).json()).toMatchObject({
    code: 'invalid-input',
  });
});

it('throws keys away by age', async () => {
  const keys = () => inside((db) => db.idempotencyKey.count());
  const before = await keys();
  expect(before).toBeGreaterThan(1);
  await sweepKeys(test.app.database, system);
  expect(await keys()).toBe(before);
  const { actorId, key } = await inside((db) => db.idempotencyKey.findFirstOrThrow());
  const { rowCount } = await withClient(test.urls.ownerUrl, (client) =>
    client.query(
      `UPDATE idempotency_keys SET created_at = now() - interval '31 days' WHERE actor_id = $1 AND key = $2`,
      [actorId, key],
    ),
  );
  expect(rowCount).toBe(1);
  await sweepKeys(test.app.database, system);
  expect(await keys()).toBe(before - 1);
});
