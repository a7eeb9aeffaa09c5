import { afterAll, beforeAll, beforeEach, expect, it } from 'vitest';
import { startApp, type Client, type TestApp } from '../../../../../tests/support/app.ts';
import { figures, partsBody } from '../../../../../tests/support/fixture.ts';
import { bookVisit, partsOf, readingOf, signFigures } from '../../../../../tests/support/house-life.ts';
import { system } from '../../kernel/actor.ts';
import { dayAt } from '../assessment/index.ts';

// The dates of these two differ at every hour: they are 25 hours apart.
const east = 'Pacific/Kiritimati';
const west = 'Pacific/Niue';

let t: TestApp;
let office: Client;
let administrator: Client;
let tomorrowInTheWest: string;
let next: string;
beforeAll(async () => {
  t = await startApp();
  office = await t.as('office');
  administrator = await t.as('administrator');
  tomorrowInTheWest = dayAt(new Date(), east);
  next = await t.app.database.as(system, async (db) => {
    const { title, body } = await db.ruleSet.findUniqueOrThrow({ where: { id: t.company.ruleSet.id } });
    const effectiveOn = new Date(tomorrowInTheWest);
    const changed = { ...(body as object), version: '2099.1' };
    const data = {
      key: 'common-practice',
      version: '2099.1',
      title,
      effectiveOn,
      body: changed,
      hash: 'next',
    };
    return (await db.ruleSet.create({ data })).id;
  });
});
afterAll(() => t.close());
const live = (timezone: string) => administrator.patch('/company', { timezone });
beforeEach(() => live(west));

let lots = 0;
const register = (ruleSetId?: string) =>
  office.post('/houses', {
    communityId: t.company.builder.communityId,
    planId: t.company.builder.planId,
    address: '5 Alder Walk',
    lot: `E${(lots += 1)}`,
    climateZone: '4A',
    ...figures,
    parts: partsBody(),
    ...(ruleSetId ? { ruleSetId } : {}),
  });

it('judges houses from its first day on, by the calendar at the houses', async () => {
  const early = await register(next);
  expect(early.statusCode).toBe(400);
  expect(early.json().fields[0].message).toContain(`(2099.1) takes effect on ${tomorrowInTheWest}.`);
  await live(east);
  expect((await register(next)).statusCode).toBe(201);
});

it('is no default before its first day: no house and no file of houses could be registered', async () => {
  const early = await administrator.patch('/company', { defaultRuleSetId: next });
  expect(early.json().fields).toMatchObject([
    { path: 'defaultRuleSetId', message: expect.stringContaining(`takes effect on ${tomorrowInTheWest}`) },
  ]);
  expect((await register()).statusCode).toBe(201);
  await live(east);
  expect((await administrator.patch('/company', { defaultRuleSetId: next })).statusCode).toBe(200);
  expect((await register()).json().ruleSet.version).toBe('2099.1');
});

it('leaves houses that were registered before with the set they were registered under', async () => {
  const { ruleSet } = (await office.get(`/houses/${t.company.house.id}`)).json();
  expect(ruleSet.version).not.toBe('2099.1');
});

it('is asked of readings by the day at the houses, at once when the company corrects its time zone', async () => {
  const { house, instruments } = t.company;
  await signFigures(t, house);
  const visit = await bookVisit(t, house.id);
  const raw = { values: { pressure: 0.09 } };
  const reading = readingOf('supply-static', partsOf(house).system, instruments.manometer.id, raw);
  const today = new Date(dayAt(new Date(), west));
  await t.app.database.as(system, (db) =>
    db.instrumentCalibration.create({
      data: { instrumentId: instruments.manometer.id, calibratedOn: today, dueOn: today },
    }),
  );
  await (await t.as('rater')).post(`/visits/${visit}/readings`, reading);
  const status = () =>
    t.app.database.as(system, async (db) => {
      const where = { houseId: house.id, item: 'supply-static' };
      return (await db.itemResult.findFirstOrThrow({ where })).status;
    });
  expect(await status()).toBe('pass');
  await live(east);
  expect(await status()).toBe('waiting');
});
