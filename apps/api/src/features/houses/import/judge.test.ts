import { afterAll, beforeAll, expect, it } from 'vitest';
import type { HouseImport } from '@countercheck/contracts';
import { withClient } from '@countercheck/host/database';
import {
  signedIn,
  startApp,
  testConfig,
  type Client,
  type TestApp,
} from '../../../../../../tests/support/app.ts';
import { buildApp } from '../../../app.ts';

let t: TestApp;
let office: Client;
beforeAll(async () => {
  t = await startApp();
  office = await t.as('office');
});
afterAll(() => t.close());

const file = (street: string, count: number) =>
  [
    'lot,address,community,plan',
    ...Array.from({ length: count }, (_, i) => `${street}${i},${i} ${street},Quillbrook Homes Field,Plan A`),
  ].join('\n');
async function load(street: string, count: number): Promise<string> {
  const body = { builderId: t.company.builder.id, csv: file(street, count) };
  const answer = await office.post('/houses/import', body);
  expect(answer.statusCode, answer.body).toBe(201);
  return answer.json().importId;
}
async function shown(id: string, client = office): Promise<HouseImport> {
  const { items } = (await client.get('/houses/imports')).json<{ items: HouseImport[] }>();
  return items.find((each) => each.id === id)!;
}
const until = (id: string, state: HouseImport['state'], client = office) =>
  expect.poll(() => shown(id, client), { timeout: 30_000, interval: 100 }).toMatchObject({ state });
const owner = <T extends object>(sql: string, ...values: unknown[]) =>
  withClient(t.urls.ownerUrl, async (client) => (await client.query<T>(sql, values)).rows);
const verdicts = (id: string) =>
  owner<{ id: string; house_id: string }>(
    `SELECT r.id, r.house_id FROM item_results r JOIN houses h ON h.id = r.house_id
     WHERE h.import_id = $1 ORDER BY r.id`,
    id,
  );

it('gives every house of a file its verdicts without anyone touching it, and says how far it is', async () => {
  const id = await load('Fern', 12);
  expect(await shown(id)).toMatchObject({ houses: 12, builder: { name: 'Quillbrook Homes' } });
  await until(id, 'done');
  expect(await shown(id)).toMatchObject({ done: 12, total: 12, problem: null });
  const found = await verdicts(id);
  expect(new Set(found.map((each) => each.house_id)).size).toBe(12);
  // To wait for a first measurement is no change of a verdict.
  const events = await owner<{ action: string }>(
    `SELECT DISTINCT action FROM events e JOIN houses h ON h.id = e.house_id WHERE h.import_id = $1`,
    id,
  );
  expect(events).toEqual([{ action: 'house registered' }]);
});

it('goes on after a process that died, and computes no house twice', async () => {
  const id = await load('Moss', 10);
  await until(id, 'done');
  const before = await verdicts(id);
  const houses = [...new Set(before.map((each) => each.house_id))].sort();
  const lost = houses.slice(4);
  await owner('DELETE FROM item_results WHERE house_id = ANY($1)', lost);
  await owner(
    `UPDATE background_runs SET state = 'running', runner = 'died', ended_at = NULL,
       heartbeat_at = now() - interval '1 minute' WHERE id = $1`,
    id,
  );
  await until(id, 'done');
  const after = await verdicts(id);
  const kept = (list: typeof before) => list.filter((each) => !lost.includes(each.house_id));
  expect(kept(after)).toEqual(kept(before));
  expect(after).toHaveLength(before.length);
  expect(await shown(id)).toMatchObject({ done: 10, total: 10 });
});

it('waits when the service stops half-way, and the next one ends it', async () => {
  const id = await load('Reed', 60);
  await expect.poll(async () => (await verdicts(id)).length, { timeout: 30_000 }).toBeGreaterThan(0);
  await t.app.close();
  const [stopped] = await owner<{ state: string }>('SELECT state FROM background_runs WHERE id = $1', id);
  const before = await verdicts(id);
  expect(stopped!.state).toBe('waiting');
  expect(new Set(before.map((each) => each.house_id)).size).toBeLessThan(60);
  const app = await buildApp(testConfig(t.urls.appUrl));
  try {
    await app.ready();
    await until(id, 'done', await signedIn(app, t.company.users.office));
    const after = await verdicts(id);
    expect(new Set(after.map((each) => each.house_id)).size).toBe(60);
    const ids = new Set(after.map((each) => each.id));
    expect(before.filter((each) => !ids.has(each.id))).toEqual([]);
  } finally {
    await app.close();
  }
});

it('names a house that cannot be judged, and judges the others', async () => {
  const app = await buildApp(testConfig(t.urls.appUrl));
  try {
    await app.ready();
    office = await signedIn(app, t.company.users.office);
    await owner(`ALTER TABLE item_results ADD CONSTRAINT broken CHECK (false) NOT VALID`);
    const id = await load('Sedge', 2);
    await until(id, 'failed');
    expect((await shown(id)).problem).toBe(
      '2 could not be judged: 0 Sedge, 1 Sedge. They are judged with their next change.',
    );
  } finally {
    await app.close();
  }
});
