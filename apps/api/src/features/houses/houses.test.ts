import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { HouseDetail } from '@countercheck/contracts';
import { withClient } from '@countercheck/host/database';
import { startApp, type Client, type TestApp } from '../../../../../tests/support/app.ts';
import { figures, partsBody } from '../../../../../tests/support/fixture.ts';
import { system } from '../../kernel/actor.ts';

let t: TestApp;
let office: Client;
beforeAll(async () => {
  t = await startApp();
  office = await t.as('office');
});
afterAll(() => t.close());

const body = (own: object = {}) => ({
  communityId: t.company.builder.communityId,
  planId: t.company.builder.planId,
  address: '5 Alder Walk',
  lot: '5',
  climateZone: '4A',
  ...figures,
  parts: partsBody(),
  ...own,
});
const register = async (own: object): Promise<HouseDetail> => {
  const answer = await office.post('/houses', body(own));
  expect(answer.statusCode, answer.body).toBe(201);
  return answer.json();
};
const owner = <T extends object>(sql: string, values: unknown[] = []) =>
  withClient(t.urls.ownerUrl, async (client) => (await client.query<T>(sql, values)).rows);

describe('registering', () => {
  test('pins the default rule set, makes the parts and the first verdicts', async () => {
    const house = await register({ lot: '101', note: '' });
    expect(house).toMatchObject({
      stage: 'awaiting_figures',
      builder: { id: t.company.builder.id },
      plan: { name: 'Plan A' },
      ruleSet: { key: t.company.ruleSet.key },
      conditionedFloorArea: 1850,
      note: null,
      revision: 1,
      openFailedItems: 0,
    });
    expect(house.rooms.map(({ label }) => label)).toEqual(['Bedroom 1', 'Bedroom 2', 'Bath 1', 'Kitchen']);
    expect(house.counts.waiting).toBeGreaterThan(3);
    expect(house.counts).toMatchObject({ pass: 0, fail: 0 });
    const [stored] = await owner<{ n: string }>(
      'SELECT count(*) AS n FROM item_results WHERE house_id = $1',
      [house.id],
    );
    const sum = Object.values(house.counts).reduce((a, b) => a + b, 0);
    expect(Number(stored?.n)).toBe(sum);
  });

  test('says when it was, as the database keeps it', async () => {
    const house = await register({ lot: '102' });
    const [row] = await owner<{ created: string; updated: string }>(
      'SELECT created_at::text AS created, updated_at::text AS updated FROM houses WHERE id = $1',
      [house.id],
    );
    expect(new Date(row!.created).toISOString()).toBe(house.createdAt);
    expect(new Date(row!.updated).toISOString()).toBe(house.updatedAt);
    expect(Math.abs(Date.parse(house.createdAt) - Date.now())).toBeLessThan(60_000);
    const list = (await office.get('/houses?search=102')).json();
    expect(list.items[0]).toMatchObject({ id: house.id, updatedAt: house.updatedAt });
  });

  test('takes the ids that a plan’s parts carry for nothing', async () => {
    const parts = partsBody() as { rooms: { id?: string }[] };
    parts.rooms[0]!.id = t.company.house.rooms[0]!.id;
    const house = await register({ lot: '103', parts });
    expect(house.rooms[0]!.id).not.toBe(parts.rooms[0]!.id);
  });

  test('writes its event', async () => {
    const house = await register({ lot: '104' });
    const { items, total } = (await office.get(`/houses/${house.id}/events`)).json();
    expect(total).toBe(1);
    expect(items[0]).toMatchObject({
      action: 'house registered',
      actorKind: 'office',
      after: { lot: '104' },
    });
  });

  test('refuses a lot twice, in words, and at once only one of two wins', async () => {
    await register({ lot: '105', address: '105 Alder Walk' });
    const again = await office.post('/houses', body({ lot: '105' }));
    expect(again.json()).toMatchObject({
      code: 'already-exists',
      detail: expect.stringContaining('105 Alder Walk'),
    });
    const both = await Promise.all([1, 2].map(() => office.post('/houses', body({ lot: '106' }))));
    expect(both.map((each) => each.statusCode).sort()).toEqual([201, 409]);
  });

  test.each([
    [
      'a plan of another builder',
      () => ({ planId: t.company.otherBuilder.planId }),
      'invalid-input',
      'planId',
    ],
    [
      'an unknown community',
      () => ({ communityId: '0199aaaa-0000-7000-8000-000000000000' }),
      'not-found',
      undefined,
    ],
    [
      'an unknown rule set',
      () => ({ ruleSetId: '0199aaaa-0000-7000-8000-000000000000' }),
      'not-found',
      undefined,
    ],
    ['a wrong climate zone', () => ({ climateZone: '9Z' }), 'invalid-input', 'climateZone'],
    ['an area below zero', () => ({ conditionedFloorArea: -5 }), 'invalid-input', 'conditionedFloorArea'],
    ['half a bedroom', () => ({ bedrooms: 2.5 }), 'invalid-input', 'bedrooms'],
    ['an address of blanks', () => ({ address: '   ' }), 'invalid-input', 'address'],
  ])('refuses %s', async (_, own, code, path) => {
    const answer = await office.post('/houses', body({ lot: '107', ...own() }));
    expect(answer.json()).toMatchObject({ code });
    if (path) expect(answer.json().fields).toEqual([expect.objectContaining({ path })]);
  });

  test('refuses a rule set that is not offered or not yet in force', async () => {
    const make = (version: string, offered: boolean, effectiveOn: string) =>
      t.app.database.as(system, (db) =>
        db.ruleSet.create({
          data: {
            key: 'other',
            version,
            title: 'Other',
            effectiveOn: new Date(effectiveOn),
            body: {},
            hash: version,
            offered,
          },
        }),
      );
    const old = await make('1', false, '2020-01-01');
    const coming = await make('2', true, '2099-01-01');
    for (const { id } of [old, coming]) {
      const answer = await office.post('/houses', body({ lot: '108', ruleSetId: id }));
      expect(answer.json()).toMatchObject({ code: 'invalid-input', fields: [{ path: 'ruleSetId' }] });
    }
  });

  test.each(['rater', 'quality', 'builder'] as const)('is not for a %s', async (who) => {
    const answer = await (await t.as(who)).post('/houses', body({ lot: '109' }));
    expect(answer.json()).toMatchObject({ code: 'not-allowed', status: 403 });
  });

  test('is not for a stranger', async () => {
    expect((await t.stranger.post('/houses', body())).json()).toMatchObject({ code: 'sign-in-required' });
  });
});

describe('changing', () => {
  const patch = (house: { id: string; updatedAt: string }, change: object) =>
    office.patch(`/houses/${house.id}`, { expectedUpdatedAt: house.updatedAt, ...change });

  test('changes what was sent, keeps the rest, tells before and after', async () => {
    const house = await register({ lot: '201' });
    const answer = await patch(house, { conditionedVolume: 17000, note: 'vaulted' });
    expect(answer.statusCode, answer.body).toBe(200);
    expect(answer.json()).toMatchObject({
      conditionedVolume: 17000,
      note: 'vaulted',
      lot: '201',
      ventilatorDucted: false,
    });
    const { items } = (await office.get(`/houses/${house.id}/events`)).json();
    const event = items.find(({ action }: { action: string }) => action === 'house changed');
    expect(event).toMatchObject({
      before: { conditionedVolume: 16650, note: null },
      after: { conditionedVolume: 17000, note: 'vaulted' },
    });
  });

  test('of two changes at once one is told that the other was first', async () => {
    const house = await register({ lot: '202' });
    const both = await Promise.all([1900, 1950].map((v) => patch(house, { conditionedFloorArea: v })));
    expect(both.map((each) => each.statusCode).sort()).toEqual([200, 409]);
    expect(both.find((each) => each.statusCode === 409)!.json()).toMatchObject({ code: 'conflict' });
  });

  test('keeps the ids of parts, adds and removes', async () => {
    const house = await register({ lot: '203' });
    const [first, second, , kitchen] = house.rooms;
    const rooms = [{ ...second, label: 'Guest room' }, kitchen, { label: 'Bath 2', kind: 'bath' }];
    const changed: HouseDetail = (
      await patch(house, { parts: { systems: house.systems, rooms, appliances: [] } })
    ).json();
    expect(changed.rooms.map(({ label }) => label)).toEqual(['Guest room', 'Kitchen', 'Bath 2']);
    expect(changed.rooms[0]!.id).toBe(second!.id);
    expect(changed.rooms.map(({ id }) => id)).not.toContain(first!.id);
    expect(changed.appliances).toEqual([]);
    expect(changed.updatedAt).not.toBe(house.updatedAt);
    expect(changed.counts.waiting).toBeLessThan(house.counts.waiting);
  });

  test('does not take a part from under its readings, nor make it something else', async () => {
    const house = await register({ lot: '204' });
    const bath = house.rooms[2]!;
    await t.app.database.as(system, async (db) => {
      const visit = await db.visit.create({
        data: {
          houseId: house.id,
          raterId: t.company.users.rater.id,
          kind: 'final',
          startsAt: new Date('2026-03-01T15:00:00Z'),
          endsAt: new Date('2026-03-01T17:00:00Z'),
        },
      });
      await db.reading.create({
        data: {
          id: crypto.randomUUID(),
          houseId: house.id,
          visitId: visit.id,
          test: 'bath-exhaust',
          subjectId: bath.id,
          raw: { values: {}, choices: {}, rows: [], confirmations: {} },
          entered: {},
          takenById: t.company.users.rater.id,
          takenAt: new Date('2026-03-01T15:30:00Z'),
        },
      });
    });
    const { systems, appliances } = house;
    const without = house.rooms.filter(({ id }) => id !== bath.id);
    const removed = await patch(house, { parts: { systems, rooms: without, appliances } });
    expect(removed.json()).toMatchObject({
      code: 'invalid-input',
      fields: [{ path: 'parts.rooms', message: 'Bath 1 has readings and cannot be removed.' }],
    });
    const turned = house.rooms.map((room) => (room.id === bath.id ? { ...room, kind: 'kitchen' } : room));
    expect((await patch(house, { parts: { systems, rooms: turned, appliances } })).json()).toMatchObject({
      code: 'invalid-input',
      fields: [{ path: 'parts.rooms.2.kind' }],
    });
  });

  test('refuses parts of another house and the same part twice', async () => {
    const house = await register({ lot: '205' });
    const { systems, appliances, rooms } = house;
    const foreign = [...rooms, { id: t.company.otherHouse.rooms[0]!.id, label: 'Strange', kind: 'bath' }];
    for (const wrong of [foreign, [...rooms, rooms[0]]]) {
      const answer = await patch(house, { parts: { systems, rooms: wrong, appliances } });
      expect(answer.json()).toMatchObject({ code: 'invalid-input' });
    }
  });

  test('refuses a sealed file, a community of another builder and a lot that is taken', async () => {
    const house = await register({ lot: '206' });
    const foreign = await patch(house, { communityId: t.company.otherBuilder.communityId });
    expect(foreign.json()).toMatchObject({ code: 'invalid-input' });
    expect((await patch(house, { lot: '11' })).json()).toMatchObject({ code: 'already-exists' });
    await owner(`UPDATE houses SET stage = 'released' WHERE id = $1`, [house.id]);
    expect((await patch(house, { note: 'late' })).json()).toMatchObject({ code: 'file-sealed' });
  });

  test('knows no house that is not there', async () => {
    const nowhere = { id: '0199aaaa-0000-7000-8000-000000000000', updatedAt: new Date().toISOString() };
    expect((await patch(nowhere, { note: 'x' })).json()).toMatchObject({ code: 'not-found' });
  });
});

describe('reading', () => {
  test('a builder sees its own houses and no other', async () => {
    const builder = await t.as('builder');
    const list = (await builder.get(`/houses?pageSize=100&builderId=${t.company.builder.id}`)).json();
    expect(list.total).toBeGreaterThan(1);
    const all = (await builder.get('/houses?pageSize=100')).json();
    expect(new Set(all.items.map((item: HouseDetail) => item.builder.id))).toEqual(
      new Set([t.company.builder.id]),
    );
    expect((await builder.get(`/houses?builderId=${t.company.otherBuilder.id}`)).json().total).toBe(0);
    expect((await builder.get('/houses?search=21 Weir')).json().total).toBe(0);
    expect((await builder.get(`/houses/${t.company.house.id}`)).json()).toMatchObject({
      lot: '11',
      counts: { waiting: expect.any(Number) },
      systems: [{ label: 'System 1' }],
    });
    expect((await builder.get(`/houses/${t.company.otherHouse.id}`)).json()).toMatchObject({
      code: 'not-found',
    });
    expect((await builder.get(`/houses/${t.company.house.id}/events`)).json()).toMatchObject({
      code: 'not-allowed',
    });
  });

  test('pages without showing one twice, counts all, orders by number of the lot', async () => {
    const seen: string[] = [];
    let total = 0;
    for (let page = 1; page === 1 || seen.length < total; page++) {
      const answer = (await office.get(`/houses?order=lot&pageSize=4&page=${page}`)).json();
      total = answer.total;
      expect(answer).toMatchObject({ page, pageSize: 4 });
      seen.push(...answer.items.map(({ lot }: HouseDetail) => lot));
    }
    expect(new Set(seen).size).toBe(total);
    expect(seen).toEqual([...seen].sort((a, b) => Number(a) - Number(b)));
    expect((await office.get('/houses?page=999')).json()).toMatchObject({ items: [], total });
  });

  test('finds by part of the address or lot, whatever the letters mean to a database', async () => {
    await register({ lot: '301', address: '301 Odd_Percent% Row' });
    const count = async (term: string) =>
      (await office.get(`/houses?search=${encodeURIComponent(term)}`)).json().total;
    expect(await count('percent%')).toBe(1);
    expect(await count('odd_perc')).toBe(1);
    expect(await count('dd')).toBe(0);
    expect(await count('od')).toBe(1);
    expect(await count('301')).toBe(1);
    expect(await count('%%%')).toBe(0);
    expect(await count("'; --")).toBe(0);
    expect(await count('\\')).toBe(0);
  });

  test('filters by stage and counts open failed items', async () => {
    const house = await register({ lot: '302' });
    await owner(`UPDATE houses SET stage = 'corrections' WHERE id = $1`, [house.id]);
    await t.app.database.as(system, async (db) => {
      for (const [item, state] of [
        ['a', 'open'],
        ['b', 'closed'],
      ] as const)
        await db.failedItem.create({
          data: {
            houseId: house.id,
            item,
            title: item,
            subjectId: 'house',
            subjectLabel: 'House',
            trade: 'builder',
            state,
            reason: 'r',
            correction: 'c',
            openedById: t.company.users.rater.id,
          },
        });
    });
    const list = (await office.get('/houses?stage=corrections')).json();
    expect(list).toMatchObject({
      total: 1,
      items: [{ id: house.id, openFailedItems: 1, stage: 'corrections' }],
    });
    expect((await office.get(`/houses/${house.id}`)).json()).toMatchObject({ openFailedItems: 1 });
    expect((await office.get('/houses?stage=nonsense')).json()).toMatchObject({ code: 'invalid-input' });
  });
});
