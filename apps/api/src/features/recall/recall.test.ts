import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { RecallHouse, RecallLetter, RecallSheet } from '@countercheck/contracts';
import { startApp, type Client, type TestApp } from '../../../../../tests/support/app.ts';
import { bookVisit, readEverything, signFigures } from '../../../../../tests/support/house-life.ts';
import { system } from '../../kernel/actor.ts';

let test: TestApp;
let quality: Client;
let manometer: string;
const nobody = '0192f0c0-0000-7000-8000-000000000000';

async function ended(id: string): Promise<RecallSheet> {
  let seen: RecallSheet | undefined;
  await expect
    .poll(
      async () => {
        seen = (await quality.get(`/recalls/${id}`)).json<RecallSheet>();
        return seen.state;
      },
      { timeout: 40_000, interval: 200 },
    )
    .not.toMatch(/waiting|running/);
  return seen!;
}

const asked = (more: object = {}) => ({
  ...{ instrumentId: manometer, from: '2026-03-01', to: '2027-12-31' },
  ...{ error: { kind: 'offset', value: -1 }, reason: 'Certificate 88 of the workshop' },
  ...more,
});
async function begin(more: object = {}): Promise<RecallSheet> {
  const answer = await quality.post('/recalls', asked(more));
  expect(answer.statusCode, answer.body).toBe(201);
  return ended(answer.json<RecallSheet>().id);
}
const lettersOf = async (id: string) =>
  (await quality.get(`/recalls/${id}/letters`)).json<{ items: RecallLetter[] }>().items;
const housesOf = async (id: string, query = '') =>
  (await quality.get(`/recalls/${id}/houses${query}`)).json<{ items: RecallHouse[]; total: number }>();
const stored = () =>
  test.app.database.as(system, async (db) => ({
    readings: await db.reading.findMany({ orderBy: { id: 'asc' } }),
    results: await db.itemResult.findMany({ orderBy: { id: 'asc' } }),
    houses: await db.house.findMany({ orderBy: { id: 'asc' } }),
    releases: await db.release.findMany(),
  }));
const outbox = () =>
  test.app.database.as(system, (db) => db.outgoingMail.findMany({ where: { about: 'recall' } }));

beforeAll(async () => {
  test = await startApp();
  quality = await test.as('quality');
  manometer = test.company.instruments.manometer.id;
  const { house } = test.company;
  await signFigures(test, house);
  await readEverything(test, await test.as('rater'), await bookVisit(test, house.id));
});
afterAll(() => test.close());

describe('a recall', () => {
  it('finds a pass that was none, drafts a letter, and changes nothing', async () => {
    const before = await stored();
    const done = await begin();
    expect(done, done.problem ?? '').toMatchObject({ state: 'done', done: 1, total: 1 });
    expect(done.result).toMatchObject({ houses: 1, flipped: 1, worse: 1, revisit: 1, sealed: 0, letters: 1 });
    const { items } = await housesOf(done.id);
    expect(items[0]).toMatchObject({ id: test.company.house.id, revisit: true, sealed: false });
    expect(items[0]!.flips).toMatchObject([
      { item: 'supply-static', subjectLabel: 'System 1', before: 'pass', after: 'fail', direction: 'worse' },
    ]);
    expect(items[0]!.readings.map(({ test }) => test)).toContain('bedroom-pressure');
    const [letter] = await lettersOf(done.id);
    expect(letter).toMatchObject({ houses: 1, sentAt: null, recipients: ['site@quillbrook.example'] });
    expect(letter!.body).toContain('it showed 1 Pa too little');
    expect(letter!.body).toContain('11 Weir Lane');
    expect(letter!.body).toContain('Certificate 88');
    expect(await stored()).toEqual(before);
    expect(await outbox()).toEqual([]);
  });

  it('names a released file as sealed and leaves its seal', async () => {
    const { house, users } = test.company;
    const seal = { revision: 1, content: {}, hash: 'x', releasedBy: users.quality.name };
    await test.app.database.as(system, async (db) => {
      await db.release.create({ data: { houseId: house.id, ...seal, releasedById: users.quality.id } });
      await db.house.update({ where: { id: house.id }, data: { stage: 'released' } });
    });
    const before = await stored();
    const done = await begin();
    expect(done.result).toMatchObject({ flipped: 1, sealed: 1 });
    expect((await housesOf(done.id, '?show=sealed')).items[0]).toMatchObject({
      sealed: true,
      stage: 'released',
    });
    expect((await lettersOf(done.id))[0]!.body).toContain('new revision');
    expect(await stored()).toEqual(before);
    await test.app.database.as(system, (db) =>
      db.house.update({ where: { id: house.id }, data: { stage: 'in_testing' } }),
    );
  });

  it('without an error changes no verdict, and on other days finds no reading', async () => {
    const none = await begin({ error: { kind: 'gain', percent: 0 } });
    expect(none.result).toMatchObject({ houses: 1, flipped: 0, revisit: 0, letters: 0 });
    expect(await housesOf(none.id, '?show=flipped')).toMatchObject({ total: 0 });
    const other = await begin({ from: '2020-01-01', to: '2020-12-31' });
    expect(other.result).toMatchObject({ houses: 0, readings: 0, letters: 0 });
  });

  it('says of which readings the error cannot be told', async () => {
    const error = { kind: 'coefficient', ranges: [{ range: 'Ring 2', factor: 1.1 }] };
    const done = await begin({ instrumentId: test.company.instruments.ductTester.id, error });
    expect(done.result).toMatchObject({ notCorrected: 1, revisit: 1, flipped: 0, letters: 1 });
    expect((await housesOf(done.id, '?show=revisit')).items[0]!.readings[0]!.whyNot).toContain('which range');
  });

  it('is listed, newest first', async () => {
    const { items, total } = (await quality.get('/recalls?pageSize=2')).json<{
      items: RecallSheet[];
      total: number;
    }>();
    expect(total).toBeGreaterThan(2);
    expect(items[0]!.askedAt >= items[1]!.askedAt).toBe(true);
  });
});

describe('letters', () => {
  it('go out when the quality manager says so, as changed, and once', async () => {
    const { id } = await begin();
    const [letter] = await lettersOf(id);
    const path = `/recall-letters/${letter!.id}/send`;
    const body = { subject: 'About two gauges', body: 'Word of our own.' };
    for (const who of ['administrator', 'office', 'rater', 'builder'] as const)
      expect((await (await test.as(who)).post(path, body)).statusCode).toBe(403);
    const answers = await Promise.all([quality.post(path, body), quality.post(path, body)]);
    expect(answers.map(({ statusCode }) => statusCode).sort()).toEqual([200, 409]);
    expect(await outbox()).toMatchObject([{ recipient: 'site@quillbrook.example', ...body }]);
    expect((await lettersOf(id))[0]).toMatchObject({ sentBy: test.company.users.quality.name, ...body });
    const events = await test.app.database.as(system, (db) =>
      db.event.findMany({ where: { action: 'recall letter sent' } }),
    );
    expect(events).toHaveLength(1);
  });

  it('wait for somebody to write to', async () => {
    const { id } = await begin();
    const [letter] = await lettersOf(id);
    const notify = (value: boolean) =>
      test.app.database.as(system, (db) => db.builderContact.updateMany({ data: { notify: value } }));
    await notify(false);
    const answer = await quality.post(`/recall-letters/${letter!.id}/send`, { subject: 'x', body: 'x' });
    expect(answer.json()).toMatchObject({ code: 'conflict' });
    await notify(true);
  });
});

describe('what is refused', () => {
  it.each([
    [{ to: '2026-02-01' }, 400],
    [{ from: 'once' }, 400],
    [{ reason: ' ' }, 400],
    [{ error: { kind: 'gain', percent: -100 } }, 400],
    [{ error: { kind: 'coefficient', ranges: [] } }, 400],
    [
      {
        error: {
          kind: 'coefficient',
          ranges: [
            { range: 'A', factor: 2 },
            { range: 'A', factor: 2 },
          ],
        },
      },
      400,
    ],
    [{ instrumentId: nobody }, 404],
  ])('%o', async (more, status) => {
    expect((await quality.post('/recalls', asked(more))).statusCode).toBe(status);
  });

  it('a recall or letter that is not there, and other roles', async () => {
    for (const path of ['', '/houses', '/letters'])
      expect((await quality.get(`/recalls/${nobody}${path}`)).statusCode).toBe(404);
    expect((await quality.post(`/recalls/${nobody}/cancel`)).statusCode).toBe(404);
    const letter = { subject: 'x', body: 'x' };
    expect((await quality.post(`/recall-letters/${nobody}/send`, letter)).statusCode).toBe(404);
    for (const who of ['office', 'rater', 'builder'] as const) {
      expect((await (await test.as(who)).get('/recalls')).statusCode).toBe(403);
      expect((await (await test.as(who)).post('/recalls', asked())).statusCode).toBe(403);
    }
  });
});

it('is cancelled, and then has nothing to show', async () => {
  const { id } = await begin();
  expect((await quality.post(`/recalls/${id}/cancel`)).statusCode).toBe(409);
  await test.app.database.as(system, (db) =>
    db.backgroundRun.update({
      where: { id },
      data: { state: 'running', runner: 'x', heartbeatAt: new Date() },
    }),
  );
  expect((await quality.post(`/recalls/${id}/cancel`)).json()).toMatchObject({ cancelAsked: true });
  expect(await housesOf(id)).toMatchObject({ total: 0 });
});
