import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApp, type TestApp } from '../../../../../tests/support/app.ts';
import { system } from '../../kernel/actor.ts';

let service: TestApp;
beforeAll(async () => {
  service = await startApp();
});
afterAll(() => service.close());

const overview = async (who: Parameters<TestApp['as']>[0]) =>
  (await (await service.as(who)).get('/overview')).json() as {
    stages: { stage: string; houses: number }[];
    [count: string]: unknown;
  };
const houses = ({ stages }: Awaited<ReturnType<typeof overview>>) =>
  stages.reduce((sum, { houses: count }) => sum + count, 0);

it("counts everybody's houses for the office, a rater's own for a rater, a builder's own for a builder", async () => {
  const { house, users, instruments } = service.company;
  // Noon of today where the company is, whatever the time is now.
  const day = new Intl.DateTimeFormat('en-CA', { timeZone: 'US/Central' }).format(new Date());
  const startsAt = new Date(`${day}T18:00:00Z`);
  const endsAt = new Date(`${day}T19:00:00Z`);
  await service.app.database.as(system, async (db) => {
    await db.visit.create({
      data: { houseId: house.id, raterId: users.rater.id, kind: 'final', startsAt, endsAt },
    });
    await db.house.update({ where: { id: house.id }, data: { stage: 'in_review' } });
    await db.reinspectionRequest.create({
      data: { houseId: house.id, askedById: users.builder.id, askedByName: 'x' },
    });
    await db.instrument.create({
      data: { kind: 'manometer', label: 'Never', serial: 'N-1', accuracyPercent: 1, accuracyAbsolute: 1 },
    });
  });
  const due = Object.keys(instruments).length;
  const office = await overview('office');
  expect(houses(office)).toBe(2);
  expect(office).toMatchObject({ visitsToday: 1, reinspectionsAsked: 1, waitingForReview: 1 });
  expect(office['instrumentsDue']).toBeGreaterThanOrEqual(1);
  expect(office['instrumentsDue']).toBeLessThanOrEqual(due + 1);
  expect([houses(await overview('rater')), houses(await overview('otherRater'))]).toEqual([1, 0]);
  expect((await overview('otherRater'))['visitsToday']).toBe(0);
  expect(houses(await overview('builder'))).toBe(1);
  expect(await overview('builder')).toMatchObject({ visitsToday: 1, instrumentsDue: 0 });
  expect(await overview('otherBuilder')).toMatchObject({ visitsToday: 0, waitingForReview: 0 });
});

// The last one: it takes the database away.
it('tells the process and the database apart', async () => {
  const good = await service.stranger.get('/health');
  expect(good.statusCode).toBe(200);
  expect(good.json()).toMatchObject({ process: { ok: true }, database: { ok: true } });
  expect(good.json().database.migrations).toBeGreaterThanOrEqual(2);
  const office = await service.as('office');
  await service.urls.drop();
  // Also for a browser with a session, which nobody could look up now.
  const bad = await office.get('/health');
  expect(bad.statusCode).toBe(503);
  expect(bad.json()).toMatchObject({
    process: { ok: true },
    database: { ok: false, latencyMs: null, migrations: null },
  });
  const other = await office.get('/overview');
  expect(other.json()).toMatchObject({ code: 'database-unavailable', status: 503 });
});
