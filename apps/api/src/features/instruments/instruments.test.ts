import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Instrument } from '@countercheck/contracts';
import { withClient } from '@countercheck/host/database';
import { startApp, type Client, type TestApp } from '../../../../../tests/support/app.ts';
import { dayAt } from '../assessment/index.ts';

let t: TestApp;
let office: Client;
beforeAll(async () => {
  t = await startApp();
  office = await t.as('office');
});
afterAll(() => t.close());

const day = (offset: number) => dayAt(new Date(Date.now() + offset * 86_400_000), 'US/Central');
let number = 0;
const register = async (own: object = {}): Promise<Instrument> => {
  const body = {
    kind: 'manometer',
    label: 'Gauge',
    serial: `G-${++number}`,
    accuracyPercent: 1,
    accuracyAbsolute: 0.5,
    ...own,
  };
  const answer = await office.post('/instruments', body);
  expect(answer.statusCode, answer.body).toBe(201);
  return answer.json();
};
const calibrate = (id: string, calibratedOn: string, dueOn: string, own: object = {}) =>
  office.post(`/instruments/${id}/calibrations`, { calibratedOn, dueOn, ...own });

test('is registered without a calibration, so that its readings do not count yet', async () => {
  const made = await register();
  expect(made).toMatchObject({
    resolution: null,
    note: null,
    active: true,
    calibrations: [],
    inCalibration: false,
  });
  expect(await register({ kind: 'stopwatch' })).toMatchObject({ inCalibration: true });
});

test('a serial number is registered once', async () => {
  const made = await register();
  const body = {
    kind: 'manometer',
    label: 'x',
    serial: made.serial,
    accuracyPercent: 1,
    accuracyAbsolute: 1,
  };
  expect((await office.post('/instruments', body)).json()).toMatchObject({ code: 'already-exists' });
  const other = await register();
  expect((await office.patch(`/instruments/${other.id}`, { serial: made.serial })).json()).toMatchObject({
    code: 'already-exists',
  });
});

test('counts from the day of its calibration to the day it is due, both included', async () => {
  const { id } = await register();
  expect((await calibrate(id, day(-400), day(-35), { certificate: 'K 1' })).json()).toMatchObject({
    inCalibration: false,
  });
  expect((await calibrate(id, day(-30), day(0))).json()).toMatchObject({
    inCalibration: true,
    calibrations: [{ calibratedOn: day(-30), dueOn: day(0) }, { certificate: 'K 1' }],
  });
  const { id: other } = await register();
  expect((await calibrate(other, day(0), day(1))).json()).toMatchObject({ inCalibration: true });
  const { id: late } = await register();
  expect((await calibrate(late, day(-30), day(-1))).json()).toMatchObject({ inCalibration: false });
  const [row] = await withClient(
    t.urls.ownerUrl,
    async (client) =>
      (
        await client.query<{ on: string }>(
          'SELECT calibrated_on::text AS on FROM instrument_calibrations WHERE instrument_id = $1',
          [late],
        )
      ).rows,
  );
  expect(row!.on).toBe(day(-30));
});

test.each([
  ['a day to come', () => [day(2), day(30), {}], 'calibratedOn'],
  ['a due date before it', () => [day(-2), day(-3), {}], 'dueOn'],
  [
    'a range twice',
    () => [
      day(-2),
      day(30),
      { ranges: [1, 2].map(() => ({ range: 'A', c: 10, n: 0.5, minPa: 10, maxPa: 60 })) },
    ],
    'ranges.1.range',
  ],
  [
    'a range upside down',
    () => [day(-2), day(30), { ranges: [{ range: 'A', c: 10, n: 0.5, minPa: 70, maxPa: 60 }] }],
    'ranges.0.maxPa',
  ],
  [
    'a coefficient of nothing',
    () => [day(-2), day(30), { ranges: [{ range: 'A', c: 0, n: 0.5, minPa: 7, maxPa: 60 }] }],
    'ranges.0.c',
  ],
  [
    'coefficients and a table',
    () => [day(-2), day(30), { ranges: [{ ...byTable(), c: 10, n: null }] }],
    'ranges.0.c',
  ],
  [
    'neither',
    () => [day(-2), day(30), { ranges: [{ range: 'A', n: 0.5, minPa: 10, maxPa: 60 }] }],
    'ranges.0.c',
  ],
  [
    'a table that falls',
    () => [day(-2), day(30), { ranges: [byTable([10, 16.2], [25, 254], [60, 39.8])] }],
    'ranges.0.table',
  ],
  [
    'a table of two rows',
    () => [day(-2), day(30), { ranges: [byTable([10, 16.2], [60, 39.8])] }],
    'ranges.0.table',
  ],
  [
    'a table narrower than its range',
    () => [day(-2), day(30), { ranges: [{ ...byTable(), maxPa: 300 }] }],
    'ranges.0.table',
  ],
] as const)('refuses a calibration with %s', async (_, given, path) => {
  const { id } = await register();
  const [on, due, own] = given() as [string, string, object];
  expect((await calibrate(id, on, due, own)).json()).toMatchObject({
    code: 'invalid-input',
    fields: [{ path }],
  });
});

/** Invented. */
function byTable(...rows: [number, number][]) {
  const given =
    rows.length > 0
      ? rows
      : ([
          [10, 16.2],
          [25, 25.4],
          [60, 39.8],
        ] as const);
  const table = given.map(([pressure, flow]) => ({ pressure, flow }));
  return { range: 'A', minPa: 10, maxPa: 60, table };
}

test('keeps a maker’s table as it was entered', async () => {
  const { id } = await register({ kind: 'duct-tester' });
  const answer = await calibrate(id, day(-2), day(300), { ranges: [byTable()] });
  expect(answer.json().calibrations[0].ranges).toEqual([{ ...byTable(), c: null, n: null }]);
  const before = { range: 'B', c: 10, n: 0.5, minPa: 10, maxPa: 60 };
  const older = await calibrate(id, day(-9), day(200), { ranges: [before] });
  expect(older.json().calibrations[1].ranges).toEqual([{ ...before, table: null }]);
  const refused = await calibrate(id, day(-1), day(300), {
    ranges: [byTable([10, 16.2], [25, 254], [60, 39.8])],
  });
  expect(refused.json().fields[0].message).toContain('from 254 cfm at 25 Pa (row 2) to 39.8 cfm at 60 Pa');
});

test('has one calibration a day, and needs to be there', async () => {
  const { id } = await register();
  await calibrate(id, day(-1), day(300));
  expect((await calibrate(id, day(-1), day(200))).json()).toMatchObject({ code: 'already-exists' });
  const nowhere = '0199aaaa-0000-7000-8000-000000000000';
  expect((await calibrate(nowhere, day(-1), day(200))).json()).toMatchObject({ code: 'not-found' });
  expect((await office.patch(`/instruments/${nowhere}`, { label: 'x' })).json()).toMatchObject({
    code: 'not-found',
  });
});

test('changes keep the rest, and the kind never changes', async () => {
  const made = await register({ note: 'In the van' });
  const changed = await office.patch(`/instruments/${made.id}`, { active: false, kind: 'stopwatch' });
  expect(changed.json()).toMatchObject({
    active: false,
    kind: 'manometer',
    note: 'In the van',
    serial: made.serial,
  });
});

test('are filtered, found by part of label or serial number, and paged', async () => {
  const made = await register({ label: 'Blue cone', serial: 'ZZ-9', kind: 'flow-hood' });
  const total = async (query: string) => (await office.get(`/instruments?${query}`)).json().total;
  expect(await total('kind=flow-hood')).toBe(1);
  expect(await total('search=zz-')).toBe(1);
  expect(await total('search=BLUE')).toBe(1);
  expect((await office.get('/instruments?kind=flow-hood')).json().items[0]).toEqual(made);
  const pages = await Promise.all([1, 2].map((page) => office.get(`/instruments?pageSize=3&page=${page}`)));
  const ids = pages.flatMap((page) => page.json().items.map(({ id }: Instrument) => id));
  expect(new Set(ids).size).toBe(6);
  expect((await office.get('/instruments?kind=hammer')).json()).toMatchObject({ code: 'invalid-input' });
});

test('the quality manager keeps them too; raters read, builders do neither', async () => {
  const body = { kind: 'manometer', label: 'x', serial: 'Q-1', accuracyPercent: 1, accuracyAbsolute: 1 };
  expect((await (await t.as('quality')).post('/instruments', body)).statusCode).toBe(201);
  expect((await (await t.as('rater')).post('/instruments', body)).json()).toMatchObject({
    code: 'not-allowed',
  });
  expect((await (await t.as('rater')).get('/instruments')).statusCode).toBe(200);
  expect((await (await t.as('builder')).get('/instruments')).json()).toMatchObject({ code: 'not-allowed' });
});

test('is found by its id with its calibrations, newest first, and no other', async () => {
  const { id } = await register();
  await calibrate(id, day(-400), day(-35));
  await calibrate(id, day(-30), day(335));
  const one = await office.get(`/instruments/${id}`);
  expect(one.json()).toMatchObject({
    id,
    inCalibration: true,
    calibrations: [{ calibratedOn: day(-30) }, { calibratedOn: day(-400) }],
  });
  expect((await office.get(`/instruments/${crypto.randomUUID()}`)).statusCode).toBe(404);
});
