import { randomUUID } from 'node:crypto';
import pg from 'pg';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Prisma } from '@countercheck/prisma';
import type { Replay, ReplayHouse } from '@countercheck/contracts';
import type { RuleSet } from '@countercheck/rules';
import {
  signedIn,
  startApp,
  testConfig,
  type Client,
  type TestApp,
} from '../../../../../tests/support/app.ts';
import { addHouse } from '../../../../../tests/support/fixture.ts';
import {
  bookVisit,
  partsOf,
  readEverything,
  readingOf,
  signFigures,
} from '../../../../../tests/support/house-life.ts';
import { commonPractice } from '../../../../../packages/rules/src/test/sets.ts';
import { buildApp } from '../../app.ts';
import { system } from '../../kernel/actor.ts';
import { ruleSetHash } from '../rule-sets/index.ts';

let test: TestApp;
let quality: Client;
let strictId: string;

/** Common practice with half the duct leakage. */
async function addStricter(): Promise<string> {
  const items = structuredClone(commonPractice.items).map((item) => {
    if (item.item !== 'supply-static') return item;
    return JSON.parse(JSON.stringify(item).replaceAll(/"value":110\b/g, '"value":104')) as typeof item;
  });
  const set: RuleSet = { ...commonPractice, key: 'stricter', items };
  expect(ruleSetHash(set)).not.toBe(ruleSetHash({ ...commonPractice, key: 'stricter' }));
  const data = {
    ...{ key: set.key, version: set.version, title: 'Stricter', effectiveOn: new Date(set.effective) },
    ...{ body: set as unknown as Prisma.InputJsonObject, hash: ruleSetHash(set) },
  };
  return test.app.database.as(system, async (db) => (await db.ruleSet.create({ data })).id);
}

async function ended(client: Client, id: string): Promise<Replay> {
  let seen: Replay | undefined;
  await expect
    .poll(
      async () => {
        seen = (await client.get(`/replays/${id}`)).json<Replay>();
        return seen.state;
      },
      { timeout: 40_000, interval: 200 },
    )
    .not.toMatch(/waiting|running/);
  return seen!;
}

const ask = async (body: object): Promise<Replay> => {
  const answer = await quality.post('/replays', body);
  expect(answer.statusCode, answer.body).toBe(201);
  return answer.json<Replay>();
};
const everything = () => ({ ruleSetId: strictId, filter: {} });
const setState = (id: string, data: object) =>
  test.app.database.as(system, (db) => db.backgroundRun.update({ where: { id }, data }));

beforeAll(async () => {
  test = await startApp();
  quality = await test.as('quality');
  strictId = await addStricter();
  const { house } = test.company;
  await signFigures(test, house);
  const visit = await bookVisit(test, house.id);
  await readEverything(test, await test.as('rater'), visit);
});
afterAll(() => test.close());

describe('a replay', () => {
  it('finds what would change, by item, builder and rater, and leaves the house alone', async () => {
    const before = await test.app.database.as(system, (db) =>
      db.itemResult.findMany({ orderBy: { id: 'asc' } }),
    );
    const asked = await ask({ ...everything(), note: 'Before we ask for more' });
    expect(asked).toMatchObject({ state: 'waiting', askedBy: test.company.users.quality.name });
    const done = await ended(quality, asked.id);
    expect(done, done.problem ?? '').toMatchObject({
      state: 'done',
      done: 3,
      total: 3,
      affected: 1,
      reinspections: 1,
    });
    expect(done.result).toMatchObject({
      ...{ houses: 2, affected: 1, changed: 1, more: 1, fewer: 0, unreadable: 0 },
      ...{ reinspectionsBefore: 0, reinspectionsAfter: 1 },
      items: [{ item: 'supply-static', before: 'pass', after: 'fail', count: 1 }],
    });
    expect(done.result!.builders[0]).toMatchObject({ name: test.company.builder.name, more: 1, houses: 1 });
    expect(done.result!.raters[0]).toMatchObject({ name: test.company.users.rater.name, more: 1 });
    const { items } = (await quality.get(`/replays/${asked.id}/houses`)).json<{ items: ReplayHouse[] }>();
    expect(items).toHaveLength(1);
    expect(items[0]).toMatchObject({
      ...{ id: test.company.house.id, reinspection: 1, rater: test.company.users.rater.name },
      changes: [{ item: 'supply-static', subjectLabel: 'System 1', before: 'pass', after: 'fail' }],
    });
    const after = await test.app.database.as(system, (db) =>
      db.itemResult.findMany({ orderBy: { id: 'asc' } }),
    );
    expect(after).toEqual(before);
  });

  it('narrows the houses by builder, stage, set and day, and the list by what changed', async () => {
    const { otherBuilder, builder } = test.company;
    const of = async (filter: object) => {
      const { state, problem, result } = await ended(quality, (await ask({ ...everything(), filter })).id);
      expect({ state, problem }).toEqual({ state: 'done', problem: null });
      return result;
    };
    expect(await of({ builderId: otherBuilder.id })).toMatchObject({ houses: 1, affected: 0 });
    expect(await of({ communityId: builder.communityId, stage: 'in_testing' })).toMatchObject({
      affected: 1,
    });
    expect(await of({ ruleSetId: strictId })).toMatchObject({ houses: 0 });
    expect(await of({ from: '2000-01-01', to: '2000-12-31' })).toMatchObject({ houses: 0 });
    expect(await of({ from: '2026-01-01' })).toMatchObject({ houses: 1 });
    const { id } = (await quality.get('/replays?pageSize=100')).json<{ items: Replay[] }>().items.at(-1)!;
    for (const [query, count] of [
      ['reinspection=more', 1],
      ['reinspection=fewer', 0],
      ['item=supply-static', 1],
      ['item=spillage', 0],
      [`builderId=${otherBuilder.id}`, 0],
    ] as const)
      expect((await quality.get(`/replays/${id}/houses?${query}`)).json(), query).toMatchObject({
        total: count,
      });
  });

  it('counts a reinspection by what was read first', async () => {
    const { company } = test;
    const house = await test.app.database.as(system, (db) =>
      addHouse(db, company.ruleSet.id, company.builder, { lot: '31' }),
    );
    await signFigures(test, house);
    const { system: systemId } = partsOf(house);
    const manometer = company.instruments.manometer.id;
    const earlier = new Date(Date.now() - 9 * 86_400_000);
    const { raw } = readingOf('supply-static', systemId, manometer, { values: { pressure: 0.2 } });
    await test.app.database.as(system, async (db) => {
      const { id: visitId } = await db.visit.create({
        data: {
          ...{ houseId: house.id, raterId: company.users.rater.id, kind: 'final', state: 'submitted' },
          ...{ startsAt: earlier, endsAt: new Date(earlier.getTime() + 3_600_000) },
        },
      });
      await db.reading.create({
        data: {
          ...{ id: randomUUID(), houseId: house.id, visitId, test: 'supply-static', subjectId: systemId },
          ...{ raw: raw as unknown as Prisma.InputJsonObject, entered: {}, instrumentId: manometer },
          ...{ takenById: company.users.rater.id, takenAt: earlier },
        },
      });
    });
    const rater = await test.as('rater');
    const visit = await bookVisit(test, house.id);
    const better = readingOf('supply-static', systemId, manometer, { values: { pressure: 0.086 } });
    const answer = await rater.post(`/visits/${visit}/readings`, better);
    expect(answer.statusCode, answer.body).toBe(201);
    const done = await ended(quality, (await ask({ ...everything(), filter: { stage: 'in_testing' } })).id);
    // It passes now under both, and failed first under both: no verdict changes, one reinspection either way.
    expect(done.result).toMatchObject({
      houses: 2,
      affected: 1,
      reinspectionsBefore: 1,
      reinspectionsAfter: 2,
    });
  });

  it('counts it also where the later reading replaced the first', async () => {
    const before = (await ended(quality, (await ask(everything())).id)).result!;
    const { house } = test.company;
    const rater = await test.as('rater');
    const visit = await bookVisit(test, house.id, { kind: 'reinspection' });
    const { id, visitId, instrumentId, subjectId } = await test.app.database.as(system, (db) =>
      db.reading.findFirstOrThrow({
        where: { houseId: house.id, test: 'supply-static', supersededBy: null },
      }),
    );
    expect(visitId).not.toBe(visit);
    const more = { supersedesId: id, supersedeReason: 'Read again at the reinspection' };
    const body = readingOf('supply-static', subjectId, instrumentId, { values: { pressure: 0.085 } }, more);
    const answer = await rater.post(`/visits/${visit}/readings`, body);
    expect(answer.statusCode, answer.body).toBe(201);
    const { result } = await ended(quality, (await ask(everything())).id);
    const { reinspectionsAfter, more: extra } = before;
    // Now it would pass under both; what it failed by under the stricter set was read first.
    expect(result).toMatchObject({ changed: before.changed - 1, reinspectionsAfter, more: extra });
  });

  it('works out facts that are missing, or of older code', async () => {
    const facts = () =>
      test.app.database.as(system, (db) => db.houseFacts.findMany({ orderBy: { houseId: 'asc' } }));
    const kept = await facts();
    await test.app.database.as(system, (db) =>
      db.houseFacts.updateMany({ data: { version: 0, facts: '{' } }),
    );
    expect((await ended(quality, (await ask(everything())).id)).result).toMatchObject({
      affected: 1,
      unreadable: 0,
    });
    const without = ({ facts: text, hash, version }: (typeof kept)[number]) => ({ text, hash, version });
    expect((await facts()).map(without)).toEqual(kept.map(without));
  });

  it('counts apart what cannot be read', async () => {
    await test.app.database.as(system, (db) =>
      db.houseFacts.update({ where: { houseId: test.company.otherHouse.id }, data: { facts: '{' } }),
    );
    expect((await ended(quality, (await ask(everything())).id)).result).toMatchObject({ unreadable: 1 });
    await test.app.database.as(system, (db) => db.houseFacts.updateMany({ data: { version: 0 } }));
  });
});

describe('what is refused', () => {
  const nobody = '0192f0c0-0000-7000-8000-000000000000';
  it.each([
    [{ ruleSetId: nobody, filter: {} }, 404],
    [{ filter: {} }, 400],
    [{ filter: { from: '2026-02-01', to: '2026-01-01' } }, 400],
    [{ filter: { builderId: nobody } }, 404],
    [{ filter: { communityId: nobody } }, 404],
    [{ filter: { ruleSetId: nobody } }, 404],
  ])('%o', async (part, status) => {
    const body = 'ruleSetId' in part || status === 400 ? part : { ruleSetId: strictId, ...part };
    const whole = status === 400 && 'from' in part.filter ? { ruleSetId: strictId, ...part } : body;
    expect((await quality.post('/replays', whole)).statusCode).toBe(status);
  });
  it('a replay that is not there', async () => {
    for (const path of ['', '/houses'])
      expect((await quality.get(`/replays/${nobody}${path}`)).statusCode).toBe(404);
    for (const path of ['cancel', 'again'])
      expect((await quality.post(`/replays/${nobody}/${path}`)).statusCode).toBe(404);
  });
  it('other roles', async () => {
    for (const who of ['office', 'rater', 'builder'] as const) {
      const client = await test.as(who);
      expect((await client.get('/replays')).statusCode).toBe(403);
      expect((await client.post('/replays', everything())).statusCode).toBe(403);
    }
  });
});

describe('a replay that does not come to its end', () => {
  it('cannot be cancelled once it has ended, but asked for again', async () => {
    const { id } = await ask(everything());
    await ended(quality, id);
    expect((await quality.post(`/replays/${id}/cancel`)).statusCode).toBe(409);
    const again = await quality.post(`/replays/${id}/again`);
    expect(again.statusCode).toBe(201);
    await ended(quality, again.json<Replay>().id);
  });

  it('stops when it is cancelled at work, and keeps nothing', async () => {
    const { id } = await ask(everything());
    // As if another process were at it, which has found something already.
    await setState(id, { state: 'running', runner: 'elsewhere', heartbeatAt: new Date() });
    const answer = await quality.post(`/replays/${id}/cancel`);
    expect(answer.json()).toMatchObject({ state: 'running', cancelAsked: true });
    await setState(id, { state: 'waiting', runner: null });
    expect(await ended(quality, id)).toMatchObject({ state: 'cancelled', result: null });
    expect((await quality.get(`/replays/${id}/houses`)).json()).toMatchObject({ total: 0 });
  });

  it('stops at once in the middle of its work, and goes on to the next', async () => {
    const holder = new pg.Client({ connectionString: test.urls.ownerUrl });
    await holder.connect();
    try {
      // Whoever wants to know who visited the houses now waits for this transaction.
      await holder.query('BEGIN; LOCK TABLE visits IN ACCESS EXCLUSIVE MODE');
      const { id } = await ask(everything());
      await expect
        .poll(async () => (await quality.get(`/replays/${id}`)).json<Replay>().total, { timeout: 10_000 })
        .toBe(3);
      const waiting = await ask(everything());
      expect((await quality.post(`/replays/${id}/again`)).statusCode).toBe(409);
      const cancelled = await quality.post(`/replays/${waiting.id}/cancel`);
      expect(cancelled.json()).toMatchObject({ state: 'cancelled' });
      await quality.post(`/replays/${id}/cancel`);
      expect(await ended(quality, id)).toMatchObject({ state: 'cancelled', done: 0, result: null });
    } finally {
      await holder.end();
    }
    expect(await ended(quality, (await ask(everything())).id)).toMatchObject({ state: 'done' });
  });

  it('is interrupted when the service stops', async () => {
    const own = await startApp();
    const body = { ruleSetId: own.company.ruleSet.id, filter: {} };
    const client = await own.as('quality');
    // The first one works out the facts, so that the next has only the houses to look at.
    const first = (await client.post('/replays', body)).json<Replay>();
    expect(await ended(client, first.id)).toMatchObject({ state: 'done', done: 4 });
    const holder = new pg.Client({ connectionString: own.urls.ownerUrl });
    await holder.connect();
    await holder.query('BEGIN; LOCK TABLE visits IN ACCESS EXCLUSIVE MODE');
    const { id } = (await client.post('/replays', body)).json<Replay>();
    await expect
      .poll(async () => (await client.get(`/replays/${id}`)).json<Replay>().total, { timeout: 10_000 })
      .toBe(2);
    await own.app.close();
    await holder.end();
    const restarted = await buildApp(testConfig(own.urls.appUrl));
    await restarted.ready();
    const again = await signedIn(restarted, own.company.users.quality);
    expect((await again.get(`/replays/${id}`)).json()).toMatchObject({ state: 'interrupted', done: 0 });
    const next = (await again.post(`/replays/${id}/again`)).json<Replay>();
    expect(await ended(again, next.id)).toMatchObject({ state: 'done', done: 2 });
    await restarted.close();
    await own.urls.drop();
  });

  it('is interrupted when its process ended without a word', async () => {
    const { id } = await ask(everything());
    await setState(id, { state: 'running', runner: 'gone', heartbeatAt: new Date(Date.now() - 60_000) });
    await test.app.database.as(system, (db) =>
      db.replayHouse.createMany({
        data: [{ replayId: id, houseId: test.company.otherHouse.id, reinspection: 1, changes: [] }],
        skipDuplicates: true,
      }),
    );
    expect(await ended(quality, id)).toMatchObject({ state: 'interrupted', result: null });
    await expect
      .poll(() => test.app.database.as(system, (db) => db.replayHouse.count({ where: { replayId: id } })))
      .toBe(0);
  });
});

it('is run once with two processes at it', async () => {
  const other = await buildApp(testConfig(test.urls.appUrl));
  await other.ready();
  const asked = await Promise.all(Array.from({ length: 4 }, () => ask(everything())));
  const all = await Promise.all(asked.map(({ id }) => ended(quality, id)));
  await other.close();
  expect(all.map(({ state }) => state)).toEqual(Array(4).fill('done'));
  const events = await test.app.database.as(system, (db) =>
    db.event.findMany({ where: { action: 'replay ended', recordId: { in: asked.map(({ id }) => id) } } }),
  );
  expect(events).toHaveLength(4);
});
