import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { withClient } from '@countercheck/host/database';
import type { Batch, HouseDetail, Visit } from '@countercheck/contracts';
import { system } from '../../apps/api/src/kernel/actor.ts';
import { startApp, type Client, type TestApp } from '../support/app.ts';
import { addHouse } from '../support/fixture.ts';
import { bookVisit, good, partsOf, readingOf, readEverything, signFigures } from '../support/house-life.ts';

let t: TestApp;
let office: Client;
let rater: Client;
let second: Client;
let quality: Client;
let administrator: Client;
let hours = 24 * 10;
let lot = 700;

beforeAll(async () => {
  t = await startApp();
  [office, rater, second, quality, administrator] = (await Promise.all(
    (['office', 'rater', 'otherRater', 'quality', 'administrator'] as const).map((who) => t.as(who)),
  )) as [Client, Client, Client, Client, Client];
});
afterAll(() => t.close());

const owner = (sql: string, values: unknown[] = []) =>
  withClient(t.urls.ownerUrl, (client) => client.query(sql, values));
const slot = () => {
  hours += 3;
  const at = (hour: number) => new Date(Date.now() + hour * 3_600_000).toISOString();
  return { startsAt: at(hours), endsAt: at(hours + 2) };
};
async function signedHouse() {
  const house = await t.app.database.as(system, (db) =>
    addHouse(db, t.company.ruleSet.id, t.company.builder, { lot: String(++lot) }),
  );
  await signFigures(t, house);
  return house;
}
const book = (houseId: string, who: 'rater' | 'otherRater', kind: Visit['kind']) =>
  office.post('/visits', { houseId, raterId: t.company.users[who].id, kind, ...slot() });
const ducts = (systemId: string, own: Record<string, unknown> = {}) =>
  readingOf(
    'duct-leakage-total',
    systemId,
    t.company.instruments.ductTester.id,
    good['duct-leakage-total'],
    own,
  );
const codeOf = (answer: { body: string }) => (JSON.parse(answer.body) as { code?: string }).code ?? 'done';

describe('who measures a second time', () => {
  it('is not one who measures it a first time meanwhile', async () => {
    const house = await signedHouse();
    const first = await bookVisit(t, house.id);
    await rater.post(`/visits/${first}/readings`, ducts(partsOf(house).system));
    await rater.post(`/visits/${first}/submission`, { acceptWaiting: true });
    const again = (await book(house.id, 'otherRater', 'quality')).json<Visit>();
    expect(again.kind).toBe('quality');

    expect(codeOf(await book(house.id, 'otherRater', 'final'))).toBe('second-rater-needed');
    const others = (await book(house.id, 'rater', 'final')).json<Visit>();
    const given = await office.patch(`/visits/${others.id}`, { raterId: t.company.users.otherRater.id });
    expect(codeOf(given)).toBe('second-rater-needed');

    // Whoever came to it in another way still is not compared with himself.
    await owner('UPDATE visits SET rater_id = $1 WHERE id = $2', [t.company.users.otherRater.id, others.id]);
    await second.post(`/visits/${others.id}/readings`, ducts(partsOf(house).system));
    const reading = await second.post(`/visits/${again.id}/readings`, ducts(partsOf(house).system));
    expect(codeOf(reading)).toBe('second-rater-needed');
    const submitted = await second.post(`/visits/${again.id}/submission`, { acceptWaiting: true });
    expect(codeOf(submitted)).toBe('second-rater-needed');
  });

  it('does not take both visits of a house that nobody measured yet', async () => {
    const house = await signedHouse();
    await book(house.id, 'rater', 'final');
    expect(codeOf(await book(house.id, 'rater', 'quality'))).toBe('second-rater-needed');
  });
});

it('takes no visit with nothing measured for a house that passed', async () => {
  const house = await signedHouse();
  const { communityId, planId } = t.company.builder;
  const batch = (
    await quality.post('/batches', {
      ...{ title: 'Weir Lane', communityId, planId, trades: 'One crew', rulesKey: 'one-in-seven' },
    })
  ).json<Batch>();
  const visit = await bookVisit(t, house.id);
  const submitted = await rater.post(`/visits/${visit}/submission`, { acceptWaiting: true });
  expect(submitted.json()).toMatchObject({ state: 'submitted' });
  const taken = await quality.post(`/batches/${batch.id}/results`, { houseId: house.id });
  expect(taken.json()).toMatchObject({
    code: 'batch-rule',
    detail: expect.stringMatching(/not everything/i),
  });
  // Nor does it keep those behind it from being taken.
  const next = await signedHouse();
  const all = await bookVisit(t, next.id);
  await readEverything(t, rater, all);
  await rater.post(`/visits/${all}/submission`, {});
  const passed = await quality.post(`/batches/${batch.id}/results`, { houseId: next.id });
  expect(passed.json(), passed.body).toMatchObject({ tested: 1 });
});

describe('the time of a reading', () => {
  const days = (count: number) => new Date(Date.now() + count * 86_400_000);

  it('is not dated back to before the visit was to be', async () => {
    const house = await signedHouse();
    const visit = await bookVisit(t, house.id);
    const { system: part } = partsOf(house);
    // Booked long before, as when the instrument was still in calibration.
    await owner('UPDATE visits SET created_at = $1 WHERE id = $2', [days(-20), visit]);
    const back = await rater.post(
      `/visits/${visit}/readings`,
      ducts(part, { takenAt: days(-9).toISOString() }),
    );
    expect(back.json()).toMatchObject({ code: 'invalid-input', fields: [{ path: 'takenAt' }] });
    expect((await rater.post(`/visits/${visit}/readings`, ducts(part))).statusCode).toBe(201);
  });

  it('may be the day for which the visit was booked before it was moved', async () => {
    const house = await signedHouse();
    const visit = (await book(house.id, 'rater', 'final')).json<Visit>();
    await owner('UPDATE visits SET starts_at = $1, ends_at = $2, created_at = $1 WHERE id = $3', [
      ...[days(-4), new Date(days(-4).getTime() + 3_600_000), visit.id],
    ]);
    expect((await office.patch(`/visits/${visit.id}`, slot())).statusCode).toBe(200);
    const { system: part } = partsOf(house);
    const late = await rater.post(
      `/visits/${visit.id}/readings`,
      ducts(part, { takenAt: days(-4).toISOString() }),
    );
    expect(late.statusCode, late.body).toBe(201);
  });
});

it('judges open houses again when an instrument’s accuracy is corrected', async () => {
  const house = await signedHouse();
  await administrator.patch('/company', { decisionRule: { rule: 'guard-band', factor: 1 } });
  const visit = await bookVisit(t, house.id);
  await rater.post(`/visits/${visit}/readings`, ducts(partsOf(house).system));
  const counts = async () => (await office.get(`/houses/${house.id}`)).json<HouseDetail>().counts;
  const before = await counts();
  const { ductTester } = t.company.instruments;
  const worse = await office.patch(`/instruments/${ductTester.id}`, { accuracyPercent: 50 });
  expect(worse.statusCode).toBe(200);
  expect(await counts()).not.toEqual(before);
  await office.patch(`/instruments/${ductTester.id}`, { accuracyPercent: 3 });
  expect(await counts()).toEqual(before);
  await administrator.patch('/company', { decisionRule: { rule: 'simple-acceptance' } });
});

it('lets another finish the visit of a rater who has left, and of nobody else', async () => {
  const house = await signedHouse();
  const invited = await administrator.post('/users', {
    ...{ name: 'Leaving Rater', email: 'leaving@weir.example', role: 'rater' },
  });
  const leaving = invited.json<{ id: string }>().id;
  const visit = await bookVisit(t, house.id, { raterId: leaving });
  await owner(`UPDATE visits SET state = 'in_progress', started_at = now() WHERE id = $1`, [visit]);
  const give = (own: object = {}) =>
    office.patch(`/visits/${visit}`, { raterId: t.company.users.otherRater.id, ...slot(), ...own });
  expect((await give()).json()).toMatchObject({
    code: 'visit-closed',
    detail: expect.stringMatching(/Leaving Rater/),
  });
  await administrator.patch(`/users/${leaving}`, { active: false });
  expect(codeOf(await office.patch(`/visits/${visit}`, slot()))).toBe('visit-closed');
  expect((await give()).json()).toMatchObject({ state: 'in_progress', rater: { name: 'Second Rater' } });
  await second.post(`/visits/${visit}/readings`, ducts(partsOf(house).system));
  const submitted = await second.post(`/visits/${visit}/submission`, { acceptWaiting: true });
  expect(submitted.json(), submitted.body).toMatchObject({ state: 'submitted' });
});

it('refuses days that no calendar has, and breaks off no file for a word that cannot be looked for', async () => {
  for (const path of [
    '/visits?from=0000-01-01',
    '/failed-items/waiting?to=0000-01-01',
    '/failed-items/export?trade=%00',
  ])
    expect(codeOf(await office.get(path)), path).toBe('invalid-input');
  const none = await office.get('/failed-items/export?trade=nobody');
  expect(none.body).toMatch(/^\uFEFFfailed_on,/);
});
