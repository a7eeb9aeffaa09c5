import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Draw, DrawMember, Obligations } from '@countercheck/contracts';
import { commitmentOf, type DrawRecord } from '@countercheck/sampling';
import { startApp, type Client, type TestApp } from '../../../../../tests/support/app.ts';
import { addHouse } from '../../../../../tests/support/fixture.ts';
import { system } from '../../kernel/actor.ts';
import type { Db } from '../../kernel/database/database.ts';

let test: TestApp;
let quality: Client;
const as = <T>(work: (db: Db) => Promise<T>) => test.app.database.as(system, work);
const year = new Date().getUTCFullYear();
const at = (day: number) => new Date(Date.UTC(year, 0, 1, 18) + day * 86_400_000);

/** Forty released files: two raters, two builders, one after another through January and February. */
async function addFiles(db: Db): Promise<void> {
  const { builder, otherBuilder, users, ruleSet } = test.company;
  for (let i = 0; i < 40; i++) {
    const raterId = users[i % 4 === 3 ? 'otherRater' : 'rater'].id;
    const { id } = await addHouse(db, ruleSet.id, i % 2 ? otherBuilder : builder, {
      ...{ lot: `S${i}`, stage: i < 36 ? 'released' : 'in_review' },
    });
    const startsAt = new Date(at(i).getTime() - 36e5);
    await db.visit.create({
      data: {
        ...{ houseId: id, raterId, kind: i % 5 === 4 ? 'rough' : 'final', state: 'submitted' },
        ...{ startsAt, endsAt: new Date(startsAt.getTime() + 6e5), submittedAt: at(i) },
      },
    });
    const by = { releasedBy: users.quality.name, releasedById: users.quality.id };
    if (i < 36)
      await db.release.create({
        data: { houseId: id, revision: 1, content: {}, hash: 'x', releasedAt: at(i), ...by },
      });
  }
}

beforeAll(async () => {
  test = await startApp();
  quality = await test.as('quality');
  await as(addFiles);
});
afterAll(() => test.close());

const plan = {
  title: 'January and February',
  purpose: 'file-review',
  method: 'simple',
  size: { share: 1000 },
};
async function done<T>(answer: ReturnType<Client['post']>, status = 200): Promise<T> {
  const got = await answer;
  expect(got.statusCode, got.body).toBe(status);
  return got.json<T>();
}
const publish = (own: object = {}) => done<Draw>(quality.post('/draws', { ...plan, ...own }), 201);
const freeze = (id: string, filter: object = {}) => done<Draw>(quality.post(`/draws/${id}/frame`, filter));
const reveal = (id: string, witness = '') => done<Draw>(quality.post(`/draws/${id}/reveal`, { witness }));
const dueOn = `${year + 1}-02-01`;
const members = async (id: string) =>
  (await quality.get(`/draws/${id}/files?pageSize=100`)).json<{ items: DrawMember[] }>().items;

describe('a draw', () => {
  it('goes from commitment to frame to sample to work, each step once', async () => {
    const published = await publish();
    expect(published).toMatchObject({ step: 'published', frame: null, result: null, population: null });
    expect(JSON.stringify(published)).not.toMatch(/seed/i);
    const path = `/draws/${published.id}`;
    expect((await quality.post(`${path}/reveal`, {})).json()).toMatchObject({ code: 'draw-step' });
    expect((await quality.post(`${path}/orders`, { dueOn })).json()).toMatchObject({ code: 'draw-step' });
    expect((await quality.get(`${path}/draw.json`)).json()).toMatchObject({ code: 'draw-step' });

    const wide = (await quality.post(`${path}/population`, { state: 'both' })).json();
    expect(wide).toMatchObject({ files: 40, raters: 2, builders: 2, wouldDraw: 4 });
    const frozen = await freeze(published.id);
    expect(frozen).toMatchObject({ step: 'frozen', population: 36, frame: { count: 36 } });
    expect((await quality.post(`${path}/frame`, {})).json()).toMatchObject({ code: 'draw-step' });

    const drawn = await reveal(published.id, 'dice: 4 4 1');
    expect(drawn).toMatchObject({ step: 'drawn', drawn: 4, result: { witness: 'dice: 4 4 1' } });
    expect(commitmentOf(drawn.result!.seed)).toBe(published.commitment);
    expect((await quality.post(`${path}/reveal`, {})).json()).toMatchObject({ code: 'draw-step' });
    const files = await members(published.id);
    expect(files).toHaveLength(4);
    expect(files[0]!.chance).toBeCloseTo(4 / 36, 12);
    expect(files.every(({ work }) => work === null)).toBe(true);

    const past = await quality.post(`${path}/orders`, { dueOn: '2020-01-01' });
    expect(past.json()).toMatchObject({ code: 'invalid-input' });
    const ordered = await done<Draw>(quality.post(`${path}/orders`, { dueOn }));
    expect(ordered).toMatchObject({ step: 'ordered', orders: { ordered: 4, already: 0, dueOn } });
    expect(ordered.estimate).toMatchObject({ looked: 0, total: null });
    const reviews = await as((db) => db.fileReview.findMany({ where: { drawId: published.id } }));
    expect(reviews.map(({ houseId }) => houseId).sort()).toEqual(files.map(({ houseId }) => houseId).sort());
    expect(reviews.every(({ source, state }) => source === 'draw' && state === 'open')).toBe(true);
    expect((await members(published.id))[0]!.work).toMatchObject({ state: 'open', outcome: null });
    expect((await quality.post(`${path}/orders`, { dueOn })).json()).toMatchObject({ code: 'draw-step' });
    const events = await as((db) =>
      db.event.findMany({ where: { recordId: published.id }, orderBy: { id: 'asc' } }),
    );
    expect(events.map(({ action }) => action)).toEqual([
      ...['draw published', 'draw frozen', 'draw revealed', 'draw ordered'],
    ]);

    // Whoever is under review already is not in the next population, unless asked for.
    const next = await publish();
    const left = (await quality.post(`/draws/${next.id}/population`, {})).json<{ files: number }>();
    expect(left.files).toBe(32);
    const all = { leaveOutDone: false };
    expect((await quality.post(`/draws/${next.id}/population`, all)).json()).toMatchObject({ files: 36 });

    // What the draw says, once all of it was looked at.
    await as(async (db) => {
      const reviewerId = test.company.users.quality.id;
      const data = { state: 'done' as const, doneAt: new Date(), reviewerId };
      await db.fileReview.updateMany({
        where: { drawId: published.id },
        data: { ...data, outcome: 'clean' },
      });
      await db.fileReview.update({ where: { id: reviews[0]!.id }, data: { outcome: 'findings' } });
    });
    const told = (await quality.get(path)).json<Draw>();
    expect(told.estimate).toMatchObject({ looked: 4, found: 1, total: 9, low: 1 });
    expect(told.estimate!.high).toBeGreaterThan(20);
  });

  it('is repeated bit for bit from its export alone, and not from one that was changed', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'draw-'));
    const weighing = { base: 1, corrective: 4, newRater: 2, newPair: 2, failedFirst: 1 };
    for (const own of [
      { method: 'stratified', size: { count: 9 } },
      { method: 'systematic', size: { count: 7 } },
      { method: 'risk-weighted', size: { count: 6 }, weighing, purpose: 'field-retest' },
    ]) {
      const { id } = await publish(own);
      await freeze(id, { state: 'both', leaveOutDone: false });
      const drawn = await reveal(id);
      const answer = await quality.get(`/draws/${id}/draw.json`);
      expect(answer.headers['content-disposition']).toContain(`draw-${id}.json`);
      const record = answer.json<DrawRecord>();
      expect(record.recordHash).toBe(drawn.result!.recordHash);
      expect(record.frame.rows).toHaveLength(40);
      const { checks } = (await quality.post(`/draws/${id}/repeat`)).json<{ checks: { ok: boolean }[] }>();
      expect(checks.map(({ ok }) => ok)).toEqual(new Array(7).fill(true));
      writeFileSync(join(folder, `${own.method}.json`), answer.body);
      const sample = record.sample.with(0, { ...record.sample[0]!, id: record.frame.rows.at(-1)![0] });
      writeFileSync(join(folder, `${own.method}-changed.json`), JSON.stringify({ ...record, sample }));
    }
    // In a process of its own, with nothing of the service around it.
    const run = (file: string) =>
      spawnSync(
        process.execPath,
        ['--import', 'tsx', 'apps/api/src/commands/repeat-draw.ts', join(folder, file)],
        {
          ...{ cwd: join(import.meta.dirname, '../../../../..'), encoding: 'utf8' },
          env: { PATH: process.env['PATH'] },
        },
      );
    const same = run('risk-weighted.json');
    expect(same.stdout + same.stderr).toMatch(/The draw was repeated: every part is the same/);
    expect(same.status).toBe(0);
    const changed = run('stratified-changed.json');
    expect(changed.stdout).toMatch(/OTHER {2}Sample: drawn again: .*; recorded: /);
    expect(changed.status).toBe(1);
    rmSync(folder, { recursive: true });
  });

  it('says when a filter leaves nothing, and what a plan lacks', async () => {
    const { id } = await publish();
    const none = await quality.post(`/draws/${id}/frame`, { from: '2001-01-01', to: '2001-12-31' });
    expect(none.json()).toMatchObject({ code: 'draw-empty' });
    const weighed = await quality.post('/draws', { ...plan, method: 'risk-weighted' });
    expect(weighed.json()).toMatchObject({ code: 'invalid-input' });
    const only = { from: `${year}-01-10`, to: `${year}-01-19`, kind: 'final' };
    const counted = (await quality.post(`/draws/${id}/population`, only)).json<{ files: number }>();
    expect(counted.files).toBe(await as((db) => countBetween(db)));
  });
});

/** Ten days of January without the rough ones and those under review. */
async function countBetween(db: Db): Promise<number> {
  const reviewed = await db.fileReview.findMany({ select: { houseId: true } });
  return db.house.count({
    where: {
      stage: 'released',
      id: { notIn: reviewed.map(({ houseId }) => houseId) },
      releases: { some: { releasedAt: { gte: at(9), lt: at(19) } } },
      visits: { some: { kind: 'final' } },
    },
  });
}

describe('obligations', () => {
  it('count per rater what is due, done and overdue', async () => {
    const { rater, otherRater } = test.company.users;
    const { raters, shares } = (
      await quality.get(`/obligations?from=${year}-01-01&to=${year}-12-31`)
    ).json<Obligations>();
    expect(shares.map(({ share, mark }) => [share, mark])).toEqual([
      [1000, 'seen'],
      [100, 'seen'],
    ]);
    const of = (id: string) => raters.find((each) => each.id === id)!;
    expect(of(rater.id)).toMatchObject({
      files: 30,
      fileReviews: { due: 3 },
      fieldRetests: { due: 1, done: 0 },
    });
    expect(of(otherRater.id)).toMatchObject({ files: 10, fileReviews: { due: 1 }, fieldRetests: { due: 1 } });
    const done = of(rater.id).fileReviews.done + of(otherRater.id).fileReviews.done;
    expect(done).toBe(4);
  });

  it('take the share that the company set, and the one that a corrective action raised', async () => {
    const administrator = await test.as('administrator');
    const changed = await administrator.put('/obligations/shares', {
      ...{ kind: 'file-review', share: 2000, minimum: 2, source: 'Own manual, section 4' },
    });
    expect(changed.json()).toMatchObject({ share: 2000, usual: false, source: 'Own manual, section 4' });
    const { id: raterId } = test.company.users.otherRater;
    const { id: openedById, name: openedBy } = test.company.users.quality;
    await as((db) =>
      db.correctiveAction.create({
        data: {
          ...{
            subject: 'rater',
            raterId,
            cause: 'x',
            action: 'x',
            raisedFileShare: 0.5,
            cleanFilesNeeded: 3,
          },
          ...{ effectivenessDueOn: new Date(), openedById, openedBy },
        },
      }),
    );
    const { raters } = (
      await quality.get(`/obligations?from=${year}-01-01&to=${year}-12-31`)
    ).json<Obligations>();
    const other = raters.find(({ id }) => id === raterId)!;
    expect(other.fileReviews).toMatchObject({ share: 5000, raised: true, due: 5 });
    const first = raters.find(({ id }) => id === test.company.users.rater.id)!;
    expect(first.fileReviews).toMatchObject({ share: 2000, raised: false, due: 6 });
    expect((await quality.get('/obligations?from=2026-02-01&to=2026-01-01')).statusCode).toBe(400);
  });
});
