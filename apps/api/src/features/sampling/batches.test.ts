import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Batch } from '@countercheck/contracts';
import { testingOrder } from '@countercheck/sampling';
import { startApp, type Client, type TestApp } from '../../../../../tests/support/app.ts';
import { addHouse } from '../../../../../tests/support/fixture.ts';
import { system } from '../../kernel/actor.ts';
import type { Db } from '../../kernel/database/database.ts';

let test: TestApp;
let quality: Client;
let houses: string[];
const as = <T>(work: (db: Db) => Promise<T>) => test.app.database.as(system, work);

beforeAll(async () => {
  test = await startApp();
  quality = await test.as('quality');
  const { builder, ruleSet } = test.company;
  houses = await as(async (db) => {
    const ids: string[] = [];
    for (let i = 0; i < 12; i++)
      ids.push((await addHouse(db, ruleSet.id, builder, { lot: `B${i}`, stage: 'ready_to_book' })).id);
    return ids;
  });
});
afterAll(() => test.close());

let hour = 0;
/** Measures a house: a submitted visit, and an open item where it failed. */
const measure = (houseId: string, fails = false) =>
  as(async (db) => {
    hour += 1;
    const startsAt = new Date(Date.now() + hour * 36e5);
    const { rater } = test.company.users;
    await db.visit.create({
      data: {
        ...{ houseId, raterId: rater.id, kind: 'final', state: 'submitted', startsAt },
        ...{ endsAt: new Date(startsAt.getTime() + 6e5), submittedAt: new Date() },
      },
    });
    if (!fails) return;
    await db.failedItem.create({
      data: {
        ...{ houseId, item: 'duct-leakage-total', title: 'Duct leakage', subjectId: 'house' },
        ...{ subjectLabel: 'House', trade: 'hvac-installer', reason: 'Too much', correction: 'Seal it' },
        openedById: rater.id,
      },
    });
  });
const close = (houseId: string) =>
  as((db) => db.failedItem.updateMany({ where: { houseId }, data: { state: 'closed' } }));

it('follows a batch from entry to a failed set, by the houses’ own files', async () => {
  const { communityId, planId } = test.company.builder;
  const old = houses[10]!;
  await measure(old);
  const asked = { title: 'Weir Lane', communityId, planId, trades: 'One crew', rulesKey: 'one-in-seven' };
  const opened = await quality.post('/batches', asked);
  expect(opened.statusCode, opened.body).toBe(201);
  const { id } = opened.json<Batch>();
  const post = async (path: string, body: object) =>
    (await quality.post(`/batches/${id}/${path}`, body)).json();
  const take = (houseId: string) => post('results', { houseId });

  expect(await take(houses[0]!)).toMatchObject({
    code: 'batch-rule',
    detail: expect.stringMatching(/Nothing was measured/),
  });
  expect(await take(test.company.otherHouse.id)).toMatchObject({ code: 'batch-rule' });
  expect(await take(old)).toMatchObject({ detail: expect.stringMatching(/measured before the batch/) });
  await measure(houses[0]!);
  await measure(houses[1]!);
  expect(await take(houses[1]!)).toMatchObject({ detail: expect.stringMatching(/in the order/) });
  await take(houses[0]!);
  await take(houses[1]!);
  expect(await post('sets', { houseIds: houses.slice(4, 8) })).toMatchObject({ code: 'batch-rule' });
  for (const house of houses.slice(2, 3)) {
    await measure(house);
    await take(house);
  }
  let batch = (await quality.get(`/batches/${id}`)).json<Batch>();
  expect(batch).toMatchObject({ phase: 'sampling', whyNoSet: null, tested: 3 });
  expect(batch.candidates.find((each) => each.id === houses[5])).toMatchObject({ readiness: 'not-tested' });

  // A house that was measured already would be chosen with its result known.
  await measure(houses[11]!);
  const known = await post('sets', { houseIds: [houses[4], houses[11]] });
  expect(known).toMatchObject({ code: 'batch-rule', detail: expect.stringMatching(/not measured yet/) });

  const set = houses.slice(3, 10);
  batch = await post('sets', { houseIds: set });
  const [first] = batch.setList;
  expect(first!.houses.map(({ house }) => house.id)).toEqual(testingOrder(set, first!.seed));
  expect(first!.houses.filter(({ chosen }) => chosen)).toHaveLength(1);
  const chosen = () => batch.setList[0]!.houses.filter((each) => each.chosen && !each.result);
  const failing = chosen()[0]!.house.id;
  await measure(failing, true);
  batch = await take(failing);
  expect(batch.setList[0]!.state).toBe('widened');
  expect(await take(failing)).toMatchObject({
    code: 'batch-rule',
    detail: expect.stringMatching(/still open/),
  });
  await close(failing);
  batch = await take(failing);
  expect(batch.setList[0]!.houses[0]!.result).toBe('corrected');
  const second = chosen()[0]!.house.id;
  await measure(second, true);
  batch = await take(second);
  expect(batch).toMatchObject({ phase: 'returning', setsFailed: 1 });
  expect(batch.whyNoSet).toMatch(/Set 1 has failed/);
  expect(batch.setList[0]!.houses.every((each) => each.chosen)).toBe(true);
  expect(batch.events).toHaveLength(7);

  const other = await quality.post('/batches', { ...asked, title: 'Another' });
  const taken = await quality.post(`/batches/${other.json<Batch>().id}/results`, { houseId: houses[0]! });
  expect(taken.json()).toMatchObject({
    code: 'batch-rule',
    detail: expect.stringMatching(/measured before the batch was opened/),
  });
  const { items } = (await quality.get('/batches')).json<{ items: Batch[] }>();
  expect(items.map(({ title }) => title)).toEqual(['Another', 'Weir Lane']);
});
