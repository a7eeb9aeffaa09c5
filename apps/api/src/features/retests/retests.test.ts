import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  routes,
  type Differences,
  type Retest,
  type RetestSummary,
  type VisitSheet,
} from '@countercheck/contracts';
import { withClient } from '@countercheck/host/database';
import { startApp, type Client, type TestApp } from '../../../../../tests/support/app.ts';
import { addHouse } from '../../../../../tests/support/fixture.ts';
import { bookVisit, good, partsOf, readingOf, signFigures } from '../../../../../tests/support/house-life.ts';
import { system } from '../../kernel/actor.ts';

let t: TestApp;
let office: Client;
let quality: Client;
let second: Client;
let rater: Client;
let parts: ReturnType<typeof partsOf>;
let retestId: string;
let visitId: string;
let hours = 24 * 40;

const owner = (sql: string, values: unknown[] = []) =>
  withClient(t.urls.ownerUrl, async (client) => (await client.query(sql, values)).rows as object[]);
const slot = () => {
  hours += 3;
  const at = (hour: number) => new Date(Date.now() + hour * 3_600_000).toISOString();
  return { startsAt: at(hours), endsAt: at(hours + 2) };
};
const book = (own: object = {}) =>
  office.post('/visits', {
    ...{ houseId: t.company.house.id, raterId: t.company.users.otherRater.id, kind: 'quality' },
    ...slot(),
    ...own,
  });
const read = (who: Client, visit: string, flow: number, own: object = {}) =>
  who.post(
    `/visits/${visit}/readings`,
    readingOf(
      'duct-leakage-total',
      parts.system,
      t.company.instruments.manometer.id,
      {
        values: { ductPressure: 25, flow },
      },
      { instrumentId: t.company.instruments.ductTester.id, ...own },
    ),
  );
const secret = 71.3;

beforeAll(async () => {
  t = await startApp();
  [office, quality, rater, second] = (await Promise.all(
    (['office', 'quality', 'rater', 'otherRater'] as const).map((who) => t.as(who)),
  )) as [Client, Client, Client, Client];
  const { house } = t.company;
  parts = partsOf(house);
  await signFigures(t, house, { supplyStatic: 0.0857, returnStatic: 0.1 });
  const first = await bookVisit(t, house.id);
  const ducts = await read(rater, first, secret);
  expect(ducts.statusCode, ducts.body).toBe(201);
  const supply = readingOf(
    'supply-static',
    parts.system,
    t.company.instruments.manometer.id,
    good['supply-static'],
  );
  expect((await rater.post(`/visits/${first}/readings`, supply)).statusCode).toBe(201);
  const submitted = await rater.post(`/visits/${first}/submission`, { acceptWaiting: true });
  expect(submitted.statusCode, submitted.body).toBe(200);
  // As sealed as a released house is, without the hour that measuring everything takes.
  await owner(`UPDATE houses SET stage = 'released' WHERE id = $1`, [house.id]);
}, 60_000);
afterAll(() => t.close());

describe('a re-test', () => {
  test('is ordered once, and booked for somebody who has not measured there', async () => {
    const order = { houseId: t.company.house.id, dueOn: '2026-12-20', reason: 'Agrees too well' };
    const ordered = await quality.post('/retests', order);
    expect(ordered.statusCode, ordered.body).toBe(201);
    retestId = ordered.json<RetestSummary>().id;
    expect((await quality.post('/retests', order)).json().code).toBe('conflict');
    expect((await book({ raterId: t.company.users.rater.id })).json()).toMatchObject({
      code: 'second-rater-needed',
    });
    // Any other visit is refused in a sealed file; a re-test is not.
    expect((await book({ kind: 'final' })).json().code).toBe('file-sealed');
    const booked = await book();
    expect(booked.statusCode, booked.body).toBe(201);
    visitId = booked.json().id;
    expect((await quality.get(`/retests/${retestId}`)).json()).toMatchObject({
      state: 'booked',
      visit: { id: visitId, rater: { name: 'Second Rater' } },
      comparisons: [],
    });
    const swap = await office.patch(`/visits/${visitId}`, { raterId: t.company.users.rater.id });
    expect(swap.json()).toMatchObject({ code: 'second-rater-needed' });
    const straight = owner(`UPDATE visits SET rater_id = $1 WHERE id = $2`, [
      t.company.users.rater.id,
      visitId,
    ]);
    await expect(straight).rejects.toMatchObject({ code: '23514' });
  });

  test('goes back to the list when its visit falls away', async () => {
    await office.post(`/visits/${visitId}/cancellation`, { cause: 'Nobody at home' });
    expect((await office.get('/retests')).json().items).toMatchObject([
      { id: retestId, state: 'ordered', visit: null },
    ]);
    visitId = (await book()).json().id;
    expect((await quality.post(`/retests/${retestId}/withdrawal`, { reason: 'x' })).json().code).toBe(
      'conflict',
    );
  });

  test('is blind: nothing that its rater can ask for tells what was measured, judged or reported first', async () => {
    const { id } = t.company.house;
    const asked = [
      `/visits/${visitId}/sheet`,
      `/visits/${visitId}`,
      `/houses/${id}`,
      `/houses/${id}/events?pageSize=100`,
      `/houses/${id}/submissions`,
      `/houses/${id}/reviews`,
      `/failed-items?houseId=${id}&pageSize=100`,
      '/file-findings',
      '/visits?pageSize=100',
    ];
    const told = ['71.3', '0.092', '0.0857', 'Duct leakage fails'];
    for (const url of asked) {
      const answer = await second.get(url);
      for (const words of told) expect(answer.body, `${url} tells ${words}`).not.toContain(words);
    }
    // The same questions do tell others, so that the silence above means something.
    const open = (await Promise.all(asked.slice(3, 5).map((url) => quality.get(url))))
      .map(({ body }) => body)
      .join();
    expect(open).toContain('71.3');
    expect(open).toContain('0.0857');
    const sheet = (await second.get(`/visits/${visitId}/sheet`)).json<VisitSheet>();
    expect(sheet).toMatchObject({
      blind: true,
      readings: [],
      photos: [],
      file: { reported: {}, readings: [] },
    });
    expect(sheet.verdicts.map(({ item, status }) => [item, status])).toEqual([
      ['supply-static', 'waiting'],
      ['duct-leakage-total', 'waiting'],
    ]);
    // No route that a rater may use takes a house and gives its readings beside these.
    const withReadings = Object.values(routes)
      .flatMap((feature) => Object.values(feature))
      .filter(
        ({ method, path, access }) =>
          method === 'GET' &&
          path.startsWith('/houses/:id/') &&
          (access as readonly string[]).includes('rater'),
      );
    for (const { path } of withReadings) {
      const answer = await second.get(path.replace(':id', id));
      for (const words of told) expect(answer.body, path).not.toContain(words);
    }
  });

  test('is compared when it is submitted, and leaves the released file as it is', async () => {
    const verdicts = () =>
      owner(`SELECT item, subject_id, status, reason FROM item_results WHERE house_id = $1 ORDER BY 1, 2`, [
        t.company.house.id,
      ]);
    const before = await verdicts();
    const early = await second.post(`/visits/${visitId}/submission`, { acceptWaiting: true });
    expect(early.json()).toMatchObject({ code: 'visit-not-complete' });
    const taken = await read(second, visitId, 95);
    expect(taken.statusCode, taken.body).toBe(201);
    expect(taken.json<VisitSheet>().verdicts.map(({ item, status }) => [item, status])).toEqual([
      ['supply-static', 'waiting'],
      ['duct-leakage-total', 'exempt'],
    ]);
    expect((await second.post(`/visits/${visitId}/submission`, {})).json()).toMatchObject({
      code: 'visit-not-complete',
      detail: expect.stringContaining('Supply static pressure'),
    });
    const submitted = await second.post(`/visits/${visitId}/submission`, { acceptWaiting: true });
    expect(submitted.statusCode, submitted.body).toBe(200);
    expect(await verdicts()).toEqual(before);
    expect(await owner(`SELECT stage FROM houses WHERE id = $1`, [t.company.house.id])).toEqual([
      { stage: 'released' },
    ]);
    const retest = (await quality.get(`/retests/${retestId}`)).json<Retest>();
    expect(retest).toMatchObject({
      state: 'done',
      outcome: 'differs',
      notRepeated: [{ test: 'supply-static' }],
    });
    const flow = retest.comparisons.find(({ quantity }) => quantity === 'airflow')!;
    expect(flow).toMatchObject({
      agrees: false,
      first: { takenBy: 'First Rater' },
      second: { takenBy: 'Second Rater' },
    });
    expect(flow.first.value).toBeCloseTo(secret, 6);
    expect(flow.second.value).toBeCloseTo(95, 6);
    // A tenth of the first result, and both expanded uncertainties.
    expect(flow.tolerance).toBeCloseTo(secret / 10, 6);
    expect(flow.allowed).toBeCloseTo(
      flow.tolerance + Math.hypot(flow.first.expanded ?? 0, flow.second.expanded ?? 0),
      9,
    );
    const file = (await quality.get(`/houses/${t.company.house.id}/file`)).json();
    expect(file.readings).toHaveLength(2);
    expect(file.differences).toEqual([]);
    const series = (await quality.get('/retests/differences?test=duct-leakage-total')).json<Differences[]>();
    expect(series.find(({ quantity }) => quantity === 'airflow')).toMatchObject({
      points: [{ retestId, rater: { name: 'First Rater' }, agrees: false }],
      limits: { count: 1, deviation: null },
    });
    // Afterwards the sheet still tells its rater nothing of the first measurement.
    expect((await second.get(`/visits/${visitId}/sheet`)).body).not.toContain('71.3');
    expect((await quality.post(`/visits/${visitId}/reopening`, { reason: 'x' })).json().code).toBe(
      'conflict',
    );
  });

  test('goes to nobody who came for the first measurement, even if he read nothing', async () => {
    const house = await t.app.database.as(system, (db) =>
      addHouse(db, t.company.ruleSet.id, t.company.builder, { lot: '88' }),
    );
    await signFigures(t, house);
    const came = await bookVisit(t, house.id, { rater: 'otherRater' });
    expect((await second.post(`/visits/${came}/not-ready`, { cause: 'No power' })).statusCode).toBe(200);
    const first = await bookVisit(t, house.id);
    const { manometer } = t.company.instruments;
    const supply = readingOf('supply-static', partsOf(house).system, manometer.id, good['supply-static']);
    expect((await rater.post(`/visits/${first}/readings`, supply)).statusCode).toBe(201);
    expect((await rater.post(`/visits/${first}/submission`, { acceptWaiting: true })).statusCode).toBe(200);
    const order = { houseId: house.id, dueOn: '2026-12-20', reason: 'Agrees too well' };
    expect((await quality.post('/retests', order)).statusCode).toBe(201);
    expect((await book({ houseId: house.id })).json()).toMatchObject({ code: 'second-rater-needed' });
  });
});
