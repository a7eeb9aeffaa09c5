import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { FileFinding, FileReview, FileReviewSummary } from '@countercheck/contracts';
import { withClient } from '@countercheck/host/database';
import { signedIn, startApp, type Client, type TestApp } from '../../../../../tests/support/app.ts';
import { addHouse } from '../../../../../tests/support/fixture.ts';
import { bookVisit, readEverything, signFigures } from '../../../../../tests/support/house-life.ts';
import { system } from '../../kernel/actor.ts';

let t: TestApp;
let quality: Client;
let other: Client;
let rater: Client;
let houseId: string;

beforeAll(async () => {
  t = await startApp();
  [quality, other, rater] = [await t.as('quality'), await t.as('otherQuality'), await t.as('rater')];
  houseId = await releasedHouse('701');
}, 120_000);
afterAll(() => t.close());

const owner = (sql: string, values: unknown[] = []) =>
  withClient(t.urls.ownerUrl, async (client) => (await client.query(sql, values)).rows as object[]);

async function releasedHouse(lot: string): Promise<string> {
  const house = await t.app.database.as(system, (db) =>
    addHouse(db, t.company.ruleSet.id, t.company.builder, { lot }),
  );
  await signFigures(t, house);
  const visitId = await bookVisit(t, house.id);
  await readEverything(t, rater, visitId);
  const submitted = await rater.post(`/visits/${visitId}/submission`, {});
  expect(submitted.statusCode, submitted.body).toBe(200);
  const released = await quality.post(`/houses/${house.id}/release`, {});
  expect(released.statusCode, released.body).toBe(201);
  return house.id;
}

/** A house that the rater was in, without anything read there. */
async function submittedHouse(lot: string): Promise<string> {
  return t.app.database.as(system, async (db) => {
    const { id } = await addHouse(db, t.company.ruleSet.id, t.company.builder, { lot });
    const at = { startsAt: new Date('2026-10-01T08:00:00Z'), endsAt: new Date('2026-10-01T09:00:00Z') };
    const visit = { houseId: id, raterId: t.company.users.rater.id, kind: 'final' as const, ...at };
    await db.visit.create({ data: { ...visit, state: 'submitted', submittedAt: at.endsAt } });
    return id;
  });
}

const order = async (id = houseId) => {
  const answer = await quality.post('/file-reviews', {
    houseId: id,
    dueOn: '2026-12-01',
    reason: 'Looked odd',
  });
  expect(answer.statusCode, answer.body).toBe(201);
  return answer.json<FileReviewSummary>().id;
};
const take = async (id: string, who = other) => {
  const answer = await who.post(`/file-reviews/${id}/reviewer`);
  expect(answer.statusCode, answer.body).toBe(200);
  return answer.json<FileReview>();
};
const markAll = async (review: FileReview, who = other) => {
  for (const { step, mark } of review.steps)
    if (mark === null) {
      const answer = await who.put(`/file-reviews/${review.id}/marks`, { step, mark: 'ok' });
      expect(answer.statusCode, answer.body).toBe(200);
    }
};
const finish = (id: string, who = other) => who.post(`/file-reviews/${id}/finish`, {});
const finding = async (id: string, step: string, own: object = {}, who = other) => {
  const body = {
    step,
    check: 'house',
    severity: 'minor',
    text: 'The area is not the plan’s',
    dueOn: '2026-12-01',
  };
  const answer = await who.post(`/file-reviews/${id}/findings`, { ...body, ...own });
  expect(answer.statusCode, answer.body).toBe(201);
  return answer.json<FileFinding>();
};

describe('a review of a released file', () => {
  test('is clean when every step was looked at and nothing was found', async () => {
    const id = await order();
    expect((await quality.post('/file-reviews', { houseId, dueOn: '2026-12-01' })).json()).toMatchObject({
      code: 'conflict',
    });
    const unassigned = (await quality.get('/file-reviews?which=unassigned')).json();
    expect(unassigned.items).toMatchObject([{ id, state: 'open', rater: { name: 'First Rater' } }]);
    const review = await take(id);
    expect(review).toMatchObject({ mine: true, ownWork: false, automatic: [], findings: [] });
    const readings = review.steps.filter(({ kind }) => kind === 'reading');
    expect(readings.length).toBeGreaterThan(8);
    expect(review.steps.length - readings.length).toBe(review.checklist.file.length);
    // Taken by one, closed to the others; not finished while something was not seen.
    expect(
      (await quality.put(`/file-reviews/${id}/marks`, { step: readings[0]!.step, mark: 'ok' })).json(),
    ).toMatchObject({
      code: 'conflict',
      detail: 'Second Quality Desk has taken this review.',
    });
    expect((await finish(id)).json()).toMatchObject({ code: 'review-not-complete' });
    await markAll(review);
    expect((await finish(id)).json()).toMatchObject({ state: 'done', outcome: 'clean' });
    const log = await owner(`SELECT action FROM events WHERE record_id = $1 ORDER BY id`, [id]);
    expect(log.map((row) => (row as { action: string }).action)).toEqual(
      expect.arrayContaining([
        'file review ordered',
        'file review taken',
        'step marked',
        'file review finished',
      ]),
    );
    await owner(`UPDATE file_reviews SET state = 'withdrawn', outcome = NULL, done_at = NULL WHERE id = $1`, [
      id,
    ]);
  });

  test('finds by itself what raw readings no longer give', async () => {
    const [row] = (await owner(
      `SELECT id, reason FROM item_results WHERE house_id = $1 AND status = 'pass' LIMIT 1`,
      [houseId],
    )) as { id: string; reason: string }[];
    await owner(`UPDATE item_results SET status = 'fail', reason = 'Changed by hand' WHERE id = $1`, [
      row!.id,
    ]);
    const review = await take(await order());
    expect(review.findings).toMatchObject([
      { automatic: true, check: 'recomputed', severity: 'major', raisedBy: 'Computed again' },
    ]);
    expect(review.findings[0]!.text).toContain('Changed by hand');
    // The reviewer cannot take back what the computation found, and finishing raises it once only.
    const own = review.findings[0]!.id;
    expect((await other.patch(`/file-findings/${own}`, { struck: true })).json().code).toBe('conflict');
    await markAll(review);
    expect((await finish(review.id)).json()).toMatchObject({ outcome: 'findings', openFindings: 1 });
    await owner(`UPDATE item_results SET status = 'pass', reason = $2 WHERE id = $1`, [row!.id, row!.reason]);
  });

  test('is not for whoever measured in the house, on the server and in the database', async () => {
    const house = await submittedHouse('703');
    const id = await order(house);
    const { rater: worker } = t.company.users;
    // The rater became a quality manager since.
    await owner(`UPDATE users SET role = 'quality' WHERE id = $1`, [worker.id]);
    const promoted = await signedIn(t.app, worker);
    expect((await promoted.post(`/file-reviews/${id}/reviewer`)).json()).toMatchObject({ code: 'own-work' });
    await owner(`UPDATE users SET role = 'rater' WHERE id = $1`, [worker.id]);
    const set = (reviewer: string) =>
      owner(`UPDATE file_reviews SET reviewer_id = $1 WHERE id = $2`, [reviewer, id]);
    await expect(set(worker.id)).rejects.toMatchObject({ code: '23514' });
    await expect(set(t.company.users.otherQuality.id)).resolves.toBeDefined();
  });
});

describe('findings', () => {
  let review: FileReview;
  let found: FileFinding;
  beforeAll(async () => {
    review = await take(await order());
    const reading = review.steps.find(({ kind }) => kind === 'reading')!;
    found = await finding(review.id, reading.step, { check: 'photo', text: 'The photo shows another gauge' });
    await finding(review.id, 'check:house', { severity: 'remark', text: 'Nice photos' });
    await markAll((await other.get(`/file-reviews/${review.id}`)).json());
  }, 60_000);

  test('are hidden from the rater until the review is finished, and from every other rater after', async () => {
    const count = async (who: Client) => (await who.get('/file-findings')).json().total as number;
    const before = await count(rater);
    expect((await rater.post(`/file-findings/${found.id}/answer`, { answer: 'x' })).json().code).toBe(
      'not-found',
    );
    expect((await finish(review.id)).json()).toMatchObject({ outcome: 'findings' });
    expect(await count(rater)).toBe(before + 2);
    expect(await count(await t.as('otherRater'))).toBe(0);
    const mail = await owner(
      `SELECT recipient, body FROM outgoing_mail WHERE about = 'file review' ORDER BY created_at DESC LIMIT 1`,
    );
    expect(mail).toMatchObject([
      { recipient: 'rater@weir.example', body: expect.stringContaining('another gauge') },
    ]);
  });

  test('are appealed by the rater and decided by a second person', async () => {
    const appealed = await rater.post(`/file-findings/${found.id}/appeal`, {
      appeal: 'The gauge is in the next photo',
    });
    expect(appealed.json()).toMatchObject({ state: 'appealed' });
    expect((await quality.get('/file-reviews?which=appealed')).json().items).toMatchObject([
      { id: review.id },
    ]);
    const decide = (who: Client, body: object) => who.post(`/file-findings/${found.id}/decision`, body);
    const struck = { decision: 'struck', reason: 'It is there' };
    expect((await decide(other, struck)).json().code).toBe('own-work');
    expect((await other.post(`/file-reviews/${review.id}/reopening`, { reason: 'x' })).json().code).toBe(
      'conflict',
    );
    expect((await decide(quality, { decision: 'changed', reason: 'x' })).json().code).toBe('invalid-input');
    expect((await decide(quality, struck)).json()).toMatchObject({
      state: 'struck',
      decidedBy: 'Quality Desk',
    });
    const after = (await quality.get(`/file-reviews/${review.id}`)).json<FileReview>();
    // Only a remark is left, and a remark asks for nothing.
    expect(after).toMatchObject({ state: 'done', outcome: 'clean' });
    const set = owner(`UPDATE file_review_findings SET decided_by_id = raised_by_id WHERE id = $1`, [
      found.id,
    ]);
    await expect(set).rejects.toMatchObject({ code: '23514' });
  });

  test('are answered by whoever is responsible and settled by another; a review is opened again with a reason', async () => {
    const again = await quality.post(`/file-reviews/${review.id}/reopening`, {
      reason: 'A line was overlooked',
    });
    expect(again.json()).toMatchObject({ state: 'open', outcome: null, timesReopened: 1 });
    const next = await finding(review.id, 'check:pace', {
      check: 'pace',
      severity: 'major',
      text: 'Too fast',
    });
    expect((await finish(review.id)).json()).toMatchObject({ outcome: 'findings' });
    const answer = await rater.post(`/file-findings/${next.id}/answer`, { answer: 'The clock was wrong' });
    expect(answer.json()).toMatchObject({ state: 'answered', answeredBy: 'First Rater' });
    const settled = await other.post(`/file-findings/${next.id}/settlement`, { note: 'Seen' });
    expect(settled.json()).toMatchObject({ state: 'settled', settledBy: 'Second Quality Desk' });
    const set = owner(`UPDATE file_review_findings SET settled_by_id = answered_by_id WHERE id = $1`, [
      next.id,
    ]);
    await expect(set).rejects.toMatchObject({ code: '23514' });
    expect((await rater.post(`/file-findings/${next.id}/appeal`, { appeal: 'x' })).json().code).toBe(
      'conflict',
    );
  });

  test('a step whose finding was taken back is looked at again', async () => {
    await quality.post(`/file-reviews/${review.id}/reopening`, { reason: 'Once more' });
    const wrong = await finding(review.id, 'check:safety', {
      check: 'safety',
      severity: 'major',
      text: 'Oops',
    });
    expect(
      (await other.put(`/file-reviews/${review.id}/marks`, { step: 'check:safety', mark: 'ok' })).json().code,
    ).toBe('conflict');
    expect((await other.patch(`/file-findings/${wrong.id}`, { struck: true })).json()).toMatchObject({
      state: 'struck',
    });
    expect((await finish(review.id)).json()).toMatchObject({
      code: 'review-not-complete',
      fields: [{ path: 'check:safety' }],
    });
    await other.put(`/file-reviews/${review.id}/marks`, { step: 'check:safety', mark: 'not_applicable' });
    expect((await finish(review.id)).statusCode).toBe(200);
  });
});
