import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Builder, BuilderDetail, Community, Plan } from '@countercheck/contracts';
import { startApp, type Client, type TestApp } from '../../../../../tests/support/app.ts';
import { figures, partsBody } from '../../../../../tests/support/fixture.ts';
import { system } from '../../kernel/actor.ts';

const nowhere = '0199aaaa-0000-7000-8000-000000000000';
let t: TestApp;
let office: Client;
beforeAll(async () => {
  t = await startApp();
  office = await t.as('office');
});
afterAll(() => t.close());

let number = 0;
const register = async (name = `Heron Gate ${++number}`): Promise<Builder> => {
  const answer = await office.post('/builders', { name, phone: '' });
  expect(answer.statusCode, answer.body).toBe(201);
  return answer.json();
};
const detail = async (id: string): Promise<BuilderDetail> => (await office.get(`/builders/${id}`)).json();
const events = (recordId: string) =>
  t.app.database.as(system, (db) => db.event.findMany({ where: { recordId }, orderBy: { id: 'asc' } }));

describe('builders', () => {
  test('are registered once by the same name', async () => {
    const made = await register('Heron Gate Homes');
    expect(made).toMatchObject({ phone: null, active: true, houses: 0, communities: 0, openFailedItems: 0 });
    const again = await office.post('/builders', { name: ' Heron Gate Homes ' });
    expect(again.json()).toMatchObject({ code: 'already-exists', status: 409 });
    const both = await Promise.all([1, 2].map(() => office.post('/builders', { name: 'At once' })));
    expect(both.map((each) => each.statusCode).sort()).toEqual([201, 409]);
  });

  test('change in what was sent only, with before and after in the log', async () => {
    const { id } = await register();
    await office.patch(`/builders/${id}`, { phone: '555 0100', note: 'Pays late' });
    const changed = await office.patch(`/builders/${id}`, { active: false });
    expect(changed.json()).toMatchObject({ phone: '555 0100', note: 'Pays late', active: false });
    expect(await events(id)).toMatchObject([
      { action: 'builder registered' },
      {
        action: 'builder changed',
        before: { phone: null },
        after: { phone: '555 0100' },
        actorName: 'Office Desk',
      },
      { action: 'builder changed', before: { active: true }, after: { active: false } },
    ]);
    const other = await register();
    expect((await office.patch(`/builders/${id}`, { name: other.name })).json()).toMatchObject({
      code: 'already-exists',
    });
    expect((await office.patch(`/builders/${nowhere}`, { name: 'x' })).json()).toMatchObject({
      code: 'not-found',
    });
  });

  test('are listed with their counts, found by part of the name, and paged', async () => {
    const { builder, house } = t.company;
    await t.app.database.as(system, (db) =>
      db.failedItem.create({
        data: {
          houseId: house.id,
          item: 'a',
          title: 'a',
          subjectId: 'house',
          subjectLabel: 'House',
          trade: 'builder',
          reason: 'r',
          correction: 'c',
          openedById: t.company.users.rater.id,
        },
      }),
    );
    const found = (await office.get('/builders?search=quillBROOK')).json();
    expect(found).toMatchObject({
      total: 1,
      items: [{ id: builder.id, communities: 1, houses: 1, openFailedItems: 1 }],
    });
    expect(await detail(builder.id)).toMatchObject({
      openFailedItems: 1,
      contacts: [{ name: 'Superintendent', notify: true }],
    });
    const pages = await Promise.all([1, 2].map((page) => office.get(`/builders?pageSize=2&page=${page}`)));
    expect(new Set(pages.flatMap((page) => page.json().items.map(({ id }: Builder) => id))).size).toBe(4);
    expect((await office.get(`/builders/${nowhere}`)).json()).toMatchObject({ code: 'not-found' });
  });
});

test('contacts are added, changed and removed', async () => {
  const { id } = await register();
  const made = await office.post(`/builders/${id}/contacts`, {
    name: 'Foreman',
    email: 'Foreman@HERON.example',
  });
  expect(made.json()).toMatchObject({ email: 'foreman@heron.example', notify: true, phone: null });
  const contact = `/contacts/${made.json().id}`;
  expect((await office.patch(contact, { notify: false })).json()).toMatchObject({
    name: 'Foreman',
    notify: false,
    email: 'foreman@heron.example',
  });
  expect((await office.patch(contact, { email: 'not an address' })).json()).toMatchObject({
    code: 'invalid-input',
    fields: [{ path: 'email' }],
  });
  expect((await office.delete(contact)).json()).toEqual({ ok: true });
  expect((await office.delete(contact)).json()).toMatchObject({ code: 'not-found' });
  expect((await detail(id)).contacts).toEqual([]);
  expect((await events(id)).map(({ action }) => action)).toEqual([
    'builder registered',
    'contact added',
    'contact changed',
    'contact removed',
  ]);
  expect((await office.post(`/builders/${nowhere}/contacts`, { name: 'x' })).json()).toMatchObject({
    code: 'not-found',
  });
});

test('communities have a name of their own within the builder', async () => {
  const { id } = await register();
  const add = (builderId: string, own: object = {}) =>
    office.post(`/builders/${builderId}/communities`, { name: 'Reed Bank', climateZone: '5A', ...own });
  const made: Community = (await add(id)).json();
  expect(made).toMatchObject({ builderId: id, jurisdiction: null, latitude: null, houses: 0 });
  expect((await add(id)).json()).toMatchObject({ code: 'already-exists' });
  expect((await add((await register()).id)).statusCode).toBe(201);
  expect((await add(id, { name: 'Other', climateZone: '5Z' })).json()).toMatchObject({
    code: 'invalid-input',
  });
  expect((await add(id, { name: 'Other', latitude: 91 })).json()).toMatchObject({
    fields: [{ path: 'latitude' }],
  });
  const changed = await office.patch(`/communities/${made.id}`, { latitude: 41.5 });
  expect(changed.json()).toMatchObject({ name: 'Reed Bank', latitude: 41.5, climateZone: '5A' });
  expect((await office.patch(`/communities/${nowhere}`, { name: 'x' })).json()).toMatchObject({
    code: 'not-found',
  });
});

test('a plan changes without changing the houses registered from it', async () => {
  const { builder, house } = t.company;
  const body = { name: 'Plan B', ...figures, parts: partsBody() };
  const made: Plan = (await office.post(`/builders/${builder.id}/plans`, body)).json();
  expect(made).toMatchObject({
    active: true,
    houses: 0,
    parts: { rooms: [{ label: 'Bedroom 1' }, {}, {}, {}] },
  });
  expect((await office.post(`/builders/${builder.id}/plans`, body)).json()).toMatchObject({
    code: 'already-exists',
  });
  const changed = await office.patch(`/plans/${builder.planId}`, { conditionedFloorArea: 3000 });
  expect(changed.json()).toMatchObject({
    conditionedFloorArea: 3000,
    bedrooms: 2,
    houses: 1,
    ventilatorDucted: false,
  });
  expect((await office.get(`/houses/${house.id}`)).json()).toMatchObject({ conditionedFloorArea: 1850 });
  expect((await office.patch(`/plans/${made.id}`, { name: 'Plan A' })).json()).toMatchObject({
    code: 'already-exists',
  });
  expect((await office.patch(`/plans/${nowhere}`, { name: 'x' })).json()).toMatchObject({
    code: 'not-found',
  });
  const wrong = {
    ...body,
    name: 'Plan C',
    conditionedVolume: 1,
    parts: { systems: [], rooms: [{ label: 'x', kind: 'attic' }], appliances: [] },
  };
  const paths = (await office.post(`/builders/${builder.id}/plans`, wrong))
    .json()
    .fields.map(({ path }: { path: string }) => path);
  expect(paths).toEqual(['conditionedVolume', 'parts.rooms.0.kind']);
});

test('a builder and a stranger keep nothing; a rater reads', async () => {
  const { id } = await register();
  for (const who of ['rater', 'quality', 'builder'] as const) {
    const client = await t.as(who);
    expect((await client.post('/builders', { name: 'x' })).json()).toMatchObject({ code: 'not-allowed' });
    expect((await client.patch(`/builders/${id}`, { name: 'x' })).json()).toMatchObject({
      code: 'not-allowed',
    });
  }
  expect((await (await t.as('rater')).get(`/builders/${id}`)).statusCode).toBe(200);
  expect((await (await t.as('builder')).get('/builders')).json()).toMatchObject({ code: 'not-allowed' });
  expect((await t.stranger.get('/builders')).json()).toMatchObject({ code: 'sign-in-required' });
});

test('a character that no database keeps is refused, not our fault', async () => {
  expect((await office.post('/builders', { name: 'Null\u0000byte' })).json()).toMatchObject({
    code: 'invalid-input',
  });
  const half = {
    name: 'Half',
    ...figures,
    parts: { ...partsBody(), systems: [{ label: 'S\ud800', kind: 'x' }] },
  };
  const answer = await office.post(`/builders/${t.company.builder.id}/plans`, half);
  expect(answer.json()).toMatchObject({ code: 'invalid-input' });
});
