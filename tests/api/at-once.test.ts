import { randomUUID } from 'node:crypto';
import { withClient } from '@countercheck/host/database';
import pg from 'pg';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Draw, Visit } from '@countercheck/contracts';
import { system } from '../../apps/api/src/kernel/actor.ts';
import { startApp, type Client, type TestApp } from '../support/app.ts';
import { addHouse, password } from '../support/fixture.ts';
import { bookVisit, good, partsOf, readingOf, signFigures } from '../support/house-life.ts';

let t: TestApp;
let office: Client;
let rater: Client;
let quality: Client;
let otherQuality: Client;
let lot = 900;

beforeAll(async () => {
  t = await startApp({ DATABASE_POOL: '12' });
  [office, rater, quality, otherQuality] = (await Promise.all(
    (['office', 'rater', 'quality', 'otherQuality'] as const).map((who) => t.as(who)),
  )) as [Client, Client, Client, Client];
});
afterAll(() => t.close());

const signedHouse = async () => {
  const house = await t.app.database.as(system, (db) =>
    addHouse(db, t.company.ruleSet.id, t.company.builder, { lot: String(++lot) }),
  );
  await signFigures(t, house);
  return house;
};
const ducts = (systemId: string) =>
  readingOf('duct-leakage-total', systemId, t.company.instruments.ductTester.id, good['duct-leakage-total']);
const submittedHouse = async () => {
  const house = await signedHouse();
  const visit = await bookVisit(t, house.id);
  await rater.post(`/visits/${visit}/readings`, ducts(partsOf(house).system));
  await rater.post(`/visits/${visit}/submission`, { acceptWaiting: true });
  return house;
};
const codes = (answers: { statusCode: number }[]) => answers.map(({ statusCode }) => statusCode).sort();
const count = (sql: string, values: unknown[]) =>
  withClient(t.urls.ownerUrl, async (client) => (await client.query(sql, values)).rowCount);

it('two orders of a second measurement are one', async () => {
  const { id: houseId } = await submittedHouse();
  const order = (who: Client) => who.post('/retests', { houseId, dueOn: '2027-06-01', reason: 'Looked odd' });
  const answers = await Promise.all([
    order(quality),
    order(otherQuality),
    order(quality),
    order(otherQuality),
  ]);
  expect(codes(answers)).toEqual([201, 409, 409, 409]);
  expect(await count('SELECT 1 FROM retests WHERE house_id = $1', [houseId])).toBe(1);
});

it('a visit that begins while it is cancelled is one of both', async () => {
  const house = await signedHouse();
  const visit = await bookVisit(t, house.id);
  const [cancelled, begun] = await Promise.all([
    office.post(`/visits/${visit}/cancellation`, { cause: 'Rain' }),
    rater.post(`/visits/${visit}/readings`, ducts(partsOf(house).system)),
  ]);
  expect([
    [200, 409],
    [409, 201],
  ]).toContainEqual([cancelled.statusCode, begun.statusCode]);
  const { state } = (await office.get(`/visits/${visit}`)).json<Visit>();
  expect(state).toBe(cancelled.statusCode === 200 ? 'cancelled' : 'in_progress');
});

it('a draw is frozen and revealed once, whatever witness comes second', async () => {
  await submittedHouse();
  await withClient(t.urls.ownerUrl, (client) =>
    client.query(`UPDATE houses SET stage = 'in_review' WHERE lot > '900'`),
  );
  const published = await quality.post('/draws', {
    ...{ title: 'At once', purpose: 'file-review', method: 'simple', size: { count: 1 } },
  });
  expect(published.statusCode, published.body).toBe(201);
  const { id } = published.json<Draw>();
  const freeze = (who: Client) => who.post(`/draws/${id}/frame`, { state: 'both' });
  expect(codes(await Promise.all([freeze(quality), freeze(otherQuality)]))).toEqual([200, 409]);
  const reveal = (who: Client, witness: string) => who.post(`/draws/${id}/reveal`, { witness });
  const both = await Promise.all([reveal(quality, '11 22 33'), reveal(otherQuality, '44 55 66')]);
  expect(codes(both)).toEqual([200, 409]);
  const drawn = both.find(({ statusCode }) => statusCode === 200)!.json<Draw>();
  expect((await quality.get(`/draws/${id}`)).json<Draw>().result).toEqual(drawn.result);
});

it('a key is its owner’s: another rater’s same key is another deed', async () => {
  const key = randomUUID();
  const [mine, other] = [await signedHouse(), await signedHouse()];
  const visits = [await bookVisit(t, mine.id), await bookVisit(t, other.id, { rater: 'otherRater' })];
  const second = await t.as('otherRater');
  const send = (who: Client, visit: string, house: typeof mine) =>
    who.send({
      ...{ method: 'POST', url: `/api/visits/${visit}/readings?answer=receipt` },
      headers: { 'idempotency-key': key },
      payload: ducts(partsOf(house).system),
    });
  const answers = await Promise.all([send(rater, visits[0]!, mine), send(second, visits[1]!, other)]);
  expect(codes(answers)).toEqual([201, 201]);
  expect(await count('SELECT 1 FROM readings WHERE visit_id = ANY($1)', [visits])).toBe(2);
});

it('no session comes of a password that is changed while somebody signs in with it', async () => {
  const { id, email } = t.company.users.administrator;
  const client = new pg.Client({ connectionString: t.urls.ownerUrl });
  await client.connect();
  try {
    // As a reset does it: the password, then the sessions, in one transaction.
    await client.query('BEGIN');
    await client.query(`UPDATE users SET password_hash = 'another' WHERE id = $1`, [id]);
    const signingIn = t.stranger.post('/session', { email, password });
    await new Promise((resolve) => setTimeout(resolve, 1_500));
    await client.query('DELETE FROM sessions WHERE user_id = $1', [id]);
    await client.query('COMMIT');
    expect((await signingIn).json()).toMatchObject({ code: 'wrong-credentials' });
    expect((await client.query('SELECT 1 FROM sessions WHERE user_id = $1', [id])).rowCount).toBe(0);
  } finally {
    await client.end();
  }
});
