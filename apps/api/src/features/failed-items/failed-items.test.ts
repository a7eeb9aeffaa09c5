import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { FailedItem } from '@countercheck/contracts';
import { startApp, type Client, type TestApp } from '../../../../../tests/support/app.ts';
import { bookVisit, partsOf, readingOf, signFigures } from '../../../../../tests/support/house-life.ts';
import { system } from '../../kernel/actor.ts';

let test: TestApp;
let builder: Client;
let stranger: Client;
let items: { id: string; item: string; state: string; house: { id: string } }[];

interface Page {
  total: number;
  items: typeof items;
}

beforeAll(async () => {
  test = await startApp();
  [builder, stranger] = [await test.as('builder'), await test.as('otherBuilder')];
  const rater = await test.as('rater');
  for (const [house, unitSystem] of [
    [test.company.house, 'us'],
    [test.company.otherHouse, 'si'],
  ] as const) {
    await test.app.database.as(system, async (db) => {
      await db.company.update({ where: { id: 1 }, data: { unitSystem } });
      const { builderId } = await db.house.findUniqueOrThrow({ where: { id: house.id } });
      const contact = { name: 'Foreman', email: `${unitSystem}@weir.example`, notify: true };
      await db.builderContact.create({ data: { builderId, ...contact } });
    });
    await signFigures(test, house);
    const visit = await bookVisit(test, house.id);
    const manometer = test.company.instruments.manometer.id;
    for (const [key, pressure] of [
      ['supply-static', 0.3],
      ['return-static', -0.4],
    ] as const)
      await rater.post(
        `/visits/${visit}/readings`,
        readingOf(key, partsOf(house).system, manometer, { values: { pressure } }),
      );
    await rater.post(`/visits/${visit}/submission`, { acceptWaiting: true });
  }
  items = (await builder.get('/failed-items')).json<Page>().items;
});
afterAll(() => test.close());

it('a builder sees what failed in its own houses, and nothing of another’s', async () => {
  expect(items.map(({ item }) => item).sort()).toEqual(['return-static', 'supply-static']);
  const theirs = (await stranger.get('/failed-items')).json<Page>();
  expect(theirs.total).toBe(2);
  expect(theirs.items.every(({ house }) => house.id === test.company.otherHouse.id)).toBe(true);
  const asked = (await stranger.get(`/failed-items?houseId=${test.company.house.id}`)).json<Page>();
  expect(asked).toMatchObject({ total: 0, items: [] });
  expect((await stranger.get(`/failed-items/${items[0]!.id}`)).statusCode).toBe(404);
  const text = 'Not mine';
  expect((await stranger.post(`/failed-items/${items[0]!.id}/corrections`, { text })).statusCode).toBe(404);
  const request = await stranger.post(`/houses/${test.company.house.id}/reinspection-requests`, {});
  expect(request.statusCode).toBe(404);
  expect((await (await test.as('office')).get('/failed-items')).json()).toMatchObject({ total: 4 });
});

// 0.3 in. w.c. = 74.73 Pa, 0.085 = 21.17 Pa and 110 % of it = 23.29 Pa
it('is told in either system of units, the words that were kept and the same in SI', async () => {
  const { items: told } = (await builder.get('/failed-items')).json<{ items: FailedItem[] }>();
  const supply = told.find(({ item }) => item === 'supply-static')!;
  expect(supply.reason).toContain('0.3 in. w.c. is 353 % of the reported 0.085; limit 110 %');
  expect(supply.needed).toBe('at most 0.0935 in. w.c.');
  expect(supply.inSi).toEqual({
    reason: '74.7 Pa is 353 % of the reported 21.17; limit 110 %.',
    needed: 'at most 23.29 Pa',
  });
});

it('is told by mail in the units of the company', async () => {
  const letters = await test.app.database.as(system, (db) =>
    db.outgoingMail.findMany({ where: { about: 'failed items' }, select: { recipient: true, body: true } }),
  );
  const to = (recipient: string) => letters.find((each) => each.recipient === recipient)!.body;
  expect(to('us@weir.example')).toContain('Needed: at most 0.0935 in. w.c.');
  expect(to('si@weir.example')).toContain('Needed: at most 23.29 Pa.');
  expect(to('si@weir.example')).not.toContain('in. w.c.');
});

it('is filtered by the database', async () => {
  const office = await test.as('office');
  const count = async (query: string) => (await office.get(`/failed-items?${query}`)).json<Page>().total;
  expect(await count('state=not_closed')).toBe(4);
  expect(await count('state=closed')).toBe(0);
  expect(await count(`builderId=${test.company.builder.id}`)).toBe(2);
  expect(await count('trade=plumber')).toBe(0);
  expect(await count('trade=hvac-installer&pageSize=1')).toBe(4);
});

it('only the builder and the office say what was corrected', async () => {
  const text = 'New filter';
  const rater = await test.as('rater');
  expect((await rater.post(`/failed-items/${items[0]!.id}/corrections`, { text })).statusCode).toBe(403);
  const empty = await builder.post(`/failed-items/${items[0]!.id}/corrections`, { text: ' ' });
  expect(empty.json()).toMatchObject({ code: 'invalid-input', fields: [{ path: 'text' }] });
  expect((await builder.post(`/failed-items/${randomUUID()}/corrections`, { text })).statusCode).toBe(404);
  const answer = await builder.post(`/failed-items/${items[0]!.id}/corrections`, { text });
  expect(answer.json()).toMatchObject({
    state: 'corrected',
    entries: [{ kind: 'opened' }, { kind: 'corrected', text, byName: 'Site Office' }],
  });
});

it('one reinspection is asked for what was corrected', async () => {
  const { id } = test.company.house;
  const both = await Promise.all(
    [1, 2].map(() => builder.post(`/houses/${id}/reinspection-requests`, { earliestOn: '2026-12-01' })),
  );
  expect(both.map(({ statusCode }) => statusCode).sort()).toEqual([201, 409]);
  const answer = both.find(({ statusCode }) => statusCode === 201)!;
  expect(answer.json()).toMatchObject({ state: 'asked', earliestOn: '2026-12-01', items: 2 });
  const states = (await builder.get('/failed-items'))
    .json<Page>()
    .items.map(({ state }) => state)
    .sort();
  expect(states).toEqual(['open', 'reinspection_asked']);
  expect((await builder.get('/reinspection-requests?state=asked')).json()).toMatchObject({ total: 1 });
  expect((await stranger.get('/reinspection-requests')).json()).toMatchObject({ total: 0 });
});

it('a request that met a house not ready waits for another visit', async () => {
  const { id } = test.company.house;
  const visit = await bookVisit(test, id, { kind: 'reinspection', scope: [] });
  await test.app.database.as(system, (db) =>
    db.reinspectionRequest.updateMany({ where: { houseId: id }, data: { state: 'booked', visitId: visit } }),
  );
  await (await test.as('rater')).post(`/visits/${visit}/not-ready`, { cause: 'No power' });
  expect((await builder.get('/reinspection-requests')).json()).toMatchObject({
    items: [{ state: 'asked', visitId: null }],
  });
  expect((await builder.get(`/houses/${id}`)).json()).toMatchObject({ stage: 'reinspection_asked' });
});

it('at the reinspection what passes is closed, and what was not read again stays corrected', async () => {
  const { house } = test.company;
  const ducts = partsOf(house).system;
  const manometer = test.company.instruments.manometer.id;
  const rater = await test.as('rater');
  const scope = items.map(({ item }) => ({ item, subjectId: ducts }));
  const visit = await bookVisit(test, house.id, { kind: 'reinspection', scope });
  await test.app.database.as(system, (db) =>
    db.reinspectionRequest.updateMany({
      where: { houseId: house.id },
      data: { state: 'booked', visitId: visit },
    }),
  );
  const open = items.find(({ item }) => item !== 'supply-static')!;
  await rater.post(
    `/visits/${visit}/readings`,
    readingOf('supply-static', ducts, manometer, { values: { pressure: 0.09 } }),
  );
  const refused = (await rater.post(`/visits/${visit}/submission`, {})).json<{
    fields: { message: string }[];
  }>();
  expect(refused).toMatchObject({ code: 'visit-not-complete' });
  expect(refused.fields.map(({ message }) => message).join()).toContain('not read again');
  const submitted = await rater.post(`/visits/${visit}/submission`, { acceptWaiting: true });
  expect(submitted.json()).toMatchObject({ state: 'submitted', house: { stage: 'corrections' } });
  const now = (await builder.get('/failed-items')).json<Page>().items;
  expect(now.find(({ item }) => item === 'supply-static')).toMatchObject({ state: 'closed', timesFailed: 1 });
  expect(now.find(({ id }) => id === open.id)).toMatchObject({ timesFailed: 1 });
  expect(now.find(({ id }) => id === open.id)!.state).not.toBe('closed');
  expect((await builder.get('/reinspection-requests')).json()).toMatchObject({ items: [{ state: 'done' }] });
  const closed = now.find(({ state }) => state === 'closed')!;
  const late = await builder.post(`/failed-items/${closed.id}/corrections`, { text: 'More' });
  expect(late.json()).toMatchObject({ code: 'conflict' });
});
