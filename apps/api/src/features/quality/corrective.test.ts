import { createHash } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { CorrectiveAction, FileReview, FileReviewSummary } from '@countercheck/contracts';
import { withClient } from '@countercheck/host/database';
import { startApp, type Client, type TestApp } from '../../../../../tests/support/app.ts';
import { addHouse } from '../../../../../tests/support/fixture.ts';
import { upload } from '../../../../../tests/support/upload.ts';
import { system } from '../../kernel/actor.ts';
import { headersOf, safeName } from './corrective/evidence-file.ts';

let t: TestApp;
let quality: Client;
let other: Client;
let office: Client;
let actionId: string;
let hours = 24 * 50;
beforeAll(async () => {
  t = await startApp();
  [quality, other, office] = [await t.as('quality'), await t.as('otherQuality'), await t.as('office')];
});
afterAll(() => t.close());

const owner = (sql: string, values: unknown[] = []) =>
  withClient(t.urls.ownerUrl, async (client) => (await client.query(sql, values)).rows as object[]);
const slot = () => {
  hours += 3;
  const at = (hour: number) => new Date(Date.now() + hour * 3_600_000).toISOString();
  return { startsAt: at(hours), endsAt: at(hours + 2) };
};
const book = (raterId = t.company.users.rater.id) =>
  office.post('/visits', { houseId: t.company.house.id, raterId, kind: 'final', ...slot() });
const action = async () => (await quality.get(`/corrective-actions/${actionId}`)).json<CorrectiveAction>();

/** A submitted house without a reading, whose file is reviewed with or without a finding. */
async function review(lot: string, clean: boolean): Promise<FileReviewSummary> {
  const houseId = await t.app.database.as(system, async (db) => {
    const { id } = await addHouse(db, t.company.ruleSet.id, t.company.builder, { lot });
    const at = { startsAt: new Date(`2026-10-01T08:00:00Z`), endsAt: new Date(`2026-10-01T09:00:00Z`) };
    at.startsAt.setUTCDate(Number(lot) % 28);
    at.endsAt.setUTCDate(Number(lot) % 28);
    const visit = { houseId: id, raterId: t.company.users.rater.id, kind: 'final' as const, ...at };
    await db.visit.create({ data: { ...visit, state: 'submitted', submittedAt: at.endsAt } });
    return id;
  });
  const ordered = (
    await quality.post('/file-reviews', { houseId, dueOn: '2026-12-01' })
  ).json<FileReviewSummary>();
  const taken = (await other.post(`/file-reviews/${ordered.id}/reviewer`)).json<FileReview>();
  // What the marks are for is tested where reviews are; here they only have to be there.
  await t.app.database.as(system, (db) =>
    db.fileReviewMark.createMany({
      data: taken.steps.map(({ step }) => ({
        ...{ fileReviewId: ordered.id, step, mark: 'ok' as const },
        markedById: t.company.users.otherQuality.id,
      })),
    }),
  );
  if (!clean)
    await other.post(`/file-reviews/${ordered.id}/findings`, {
      ...{ step: 'check:pace', check: 'pace', severity: 'major', text: 'Too fast', dueOn: '2026-12-01' },
    });
  const done = await other.post(`/file-reviews/${ordered.id}/finish`, {});
  expect(done.statusCode, done.body).toBe(200);
  return done.json();
}

describe('a corrective action with a hold', () => {
  test('keeps the rater from being booked, in words and in the database', async () => {
    const before = await book();
    expect(before.statusCode, before.body).toBe(201);
    const opened = await quality.post('/corrective-actions', {
      ...{
        subject: 'rater',
        raterId: t.company.users.rater.id,
        cause: 'Figures copied',
        action: 'Rides along',
      },
      ...{ raisedFileShare: 0.5, cleanFilesNeeded: 2, effectivenessDueOn: '2027-01-31' },
      holdFrom: new Date().toISOString(),
    });
    expect(opened.statusCode, opened.body).toBe(201);
    actionId = opened.json<CorrectiveAction>().id;
    // What was booked before stays, is counted, and the office hears of it.
    expect(opened.json()).toMatchObject({
      held: true,
      cleanFiles: 0,
      holds: [{ booked: 1, liftedAt: null }],
    });
    expect(await owner(`SELECT recipient FROM outgoing_mail WHERE about = 'hold'`)).toEqual([
      { recipient: 'office@weir.example' },
    ]);
    expect((await book()).json()).toMatchObject({
      code: 'rater-held',
      detail: expect.stringContaining('Figures copied'),
    });
    const moved = await office.patch(`/visits/${before.json().id}`, slot());
    expect(moved.json()).toMatchObject({ code: 'rater-held' });
    const others = (await book(t.company.users.otherRater.id)).json();
    expect(
      (await office.patch(`/visits/${others.id}`, { raterId: t.company.users.rater.id })).json(),
    ).toMatchObject({ code: 'rater-held' });
    const straight = owner(
      `INSERT INTO visits (id, house_id, rater_id, kind, starts_at, ends_at, updated_at)
       VALUES (gen_random_uuid(), $1, $2, 'final', now() + interval '300 days', now() + interval '301 days', now())`,
      [t.company.house.id, t.company.users.rater.id],
    );
    await expect(straight).rejects.toMatchObject({ code: '23514' });
    expect((await office.get('/holds/in-force')).json()).toMatchObject([
      { raterId: t.company.users.rater.id },
    ]);
  });

  test('counts clean files in a row and restores him by itself', async () => {
    await review('801', true);
    expect(await action()).toMatchObject({ cleanFiles: 1, held: true });
    await review('802', false);
    expect(await action()).toMatchObject({ cleanFiles: 0, held: true });
    await review('803', true);
    await review('804', true);
    const restored = await action();
    expect(restored).toMatchObject({
      ...{ cleanFiles: 2, held: false, state: 'open' },
      holds: [{ liftedBy: 'Countercheck', liftReason: '2 clean files in a row' }],
    });
    expect(restored.restoredAt).not.toBeNull();
    expect((await book()).statusCode).toBe(201);
    const log = await owner(
      `SELECT action FROM events WHERE record_type IN ('corrective action', 'hold') ORDER BY id`,
    );
    expect(log).toEqual(
      ['corrective action opened', 'rater held', 'clean files reached', 'hold lifted'].map((each) => ({
        action: each,
      })),
    );
  });

  test('closes when it was found effective', async () => {
    const url = `/corrective-actions/${actionId}`;
    await quality.post(`${url}/evidence`, { text: 'Rode along on three visits' });
    expect((await quality.post(`${url}/closing`, { reason: 'Enough' })).json().code).toBe('conflict');
    const again = { effective: false, note: 'Too early' };
    expect((await quality.post(`${url}/effectiveness`, again)).json().code).toBe('invalid-input');
    await quality.post(`${url}/effectiveness`, { effective: true, note: 'No finding since' });
    expect((await quality.post(`${url}/closing`, { reason: 'Enough' })).json()).toMatchObject({
      ...{ state: 'closed', effective: true },
      evidence: [{ text: 'Rode along on three visits', addedBy: 'Quality Desk' }],
    });
    expect((await quality.patch(url, { cleanFilesNeeded: 9 })).json().code).toBe('conflict');
  });

  test('a hold alone is placed from a day on and lifted with a reason', async () => {
    const { id: raterId } = t.company.users.otherRater;
    const from = new Date(Date.now() + 24 * 1000 * 3_600_000).toISOString();
    const placed = await quality.post('/holds', { raterId, from, reason: 'Licence runs out' });
    expect(placed.statusCode, placed.body).toBe(201);
    expect((await book(raterId)).statusCode).toBe(201);
    const late = { startsAt: from, endsAt: new Date(Date.parse(from) + 3_600_000).toISOString() };
    const visit = { houseId: t.company.house.id, raterId, kind: 'final', ...late };
    expect((await office.post('/visits', visit)).json().code).toBe('rater-held');
    const lifted = await quality.post(`/holds/${placed.json().id}/lifting`, { reason: 'Renewed' });
    expect(lifted.json()).toMatchObject({ liftedBy: 'Quality Desk', liftReason: 'Renewed' });
    expect((await office.post('/visits', visit)).statusCode).toBe(201);
    expect((await quality.post(`/holds/${placed.json().id}/lifting`, { reason: 'x' })).json().code).toBe(
      'conflict',
    );
  });
});

describe('a corrective action that raises the shares', () => {
  const year = new Date().getUTCFullYear();
  const addFiles = (count: number) =>
    t.app.database.as(system, async (db) => {
      for (let i = 0; i < count; i++) {
        const { id } = await addHouse(db, t.company.ruleSet.id, t.company.builder, {
          ...{ lot: `raised ${i}`, stage: 'in_review' },
        });
        const startsAt = new Date(Date.UTC(year, 0, 5 + i, 18));
        const submittedAt = new Date(startsAt.getTime() + 36e5);
        const visit = { houseId: id, raterId: t.company.users.otherRater.id, kind: 'final' as const };
        await db.visit.create({
          data: { ...visit, startsAt, endsAt: submittedAt, state: 'submitted', submittedAt },
        });
      }
    });
  const kindsOf = ({ orders }: CorrectiveAction) => orders.map(({ kind }) => kind);

  test('orders what they need, of the newest files, and no more however often it is asked', async () => {
    await addFiles(10);
    const opened = await quality.post('/corrective-actions', {
      ...{
        subject: 'rater',
        raterId: t.company.users.otherRater.id,
        cause: 'Skipped rooms',
        action: 'Trained',
      },
      ...{ raisedFieldShare: 0.25, cleanFilesNeeded: 5, effectivenessDueOn: `${year + 1}-03-01` },
    });
    expect(opened.statusCode, opened.body).toBe(201);
    const { id, orders } = opened.json<CorrectiveAction>();
    // A quarter of ten, rounded up.
    expect(orders).toHaveLength(3);
    expect(orders[0]).toMatchObject({ kind: 'field-retest', state: 'ordered', dueOn: `${year + 1}-03-01` });
    const wanted = await owner(
      `SELECT h.lot, r.source, q.state FROM retests r JOIN houses h ON h.id = r.house_id
       JOIN visit_requests q ON q.retest_id = r.id WHERE r.corrective_id = $1 ORDER BY h.lot`,
      [id],
    );
    expect(wanted).toEqual(
      [7, 8, 9].map((i) => ({ lot: `raised ${i}`, source: 'corrective', state: 'open' })),
    );
    const change = async (body: object) => (await quality.patch(`/corrective-actions/${id}`, body)).json();
    expect(kindsOf(await change({ action: 'Trained twice' }))).toHaveLength(3);
    expect(kindsOf(await change({ raisedFieldShare: 0.2 }))).toHaveLength(3);
    expect(kindsOf(await change({ raisedFieldShare: 0.5, raisedFileShare: 0.2 }))).toEqual([
      ...Array.from({ length: 5 }, () => 'field-retest'),
      ...['file-review', 'file-review'],
    ]);
  });
});

describe('evidence', () => {
  const pdf = Buffer.from('%PDF-1.7\n1 0 obj<</Type/Catalog>>endobj\ntrailer<</Root 1 0 R>>\n%%EOF\n');
  let id: string;
  beforeAll(async () => {
    const opened = await quality.post('/corrective-actions', {
      ...{ subject: 'builder', builderId: t.company.builder.id, cause: 'Late', action: 'Called' },
      ...{ cleanFilesNeeded: 5, effectivenessDueOn: '2027-03-01' },
    });
    ({ id } = opened.json<CorrectiveAction>());
  });
  const add = (file: Buffer, name: string) =>
    upload(quality, `/corrective-actions/${id}/files`, { text: 'Signed' }, file, { name, type: 'image/png' });

  test('may be a PDF, by its content, kept as it was sent under the name it had', async () => {
    const added = await add(pdf, 'C:\\desk\\minutes of 3 May é.pdf');
    expect(added.statusCode, added.body).toBe(201);
    const [evidence] = added.json<CorrectiveAction>().evidence;
    const sha256 = createHash('sha256').update(pdf).digest('hex');
    expect(evidence).toMatchObject({
      text: 'Signed',
      file: { name: 'minutes of 3 May é.pdf', mediaType: 'application/pdf', size: pdf.length, sha256 },
    });
    const { after } = await t.app.database.as(system, (db) =>
      db.event.findFirstOrThrow({ where: { action: 'evidence added' }, orderBy: { id: 'desc' } }),
    );
    expect(after).toMatchObject({ sha256, fileName: 'minutes of 3 May é.pdf', size: pdf.length });
    const served = await quality.get(`/corrective-evidence/${evidence!.id}/file`);
    expect(served.rawPayload.equals(pdf)).toBe(true);
    expect(served.headers).toMatchObject({
      'content-type': 'application/pdf',
      'x-content-type-options': 'nosniff',
      'content-security-policy': "default-src 'none'; sandbox",
      'content-disposition': `attachment; filename="minutes of 3 May _.pdf"; filename*=UTF-8''minutes%20of%203%20May%20%C3%A9.pdf`,
    });
    const stored = owner(`UPDATE stored_files SET bytes = 'x' WHERE sha256 = $1`, [sha256]);
    await expect(stored).rejects.toThrow();
  });

  test('is refused when it is something else, broken off or too large, in words', async () => {
    const refused = async (file: Buffer, name: string) => (await add(file, name)).json<{ code: string }>();
    expect(await refused(Buffer.from('<script>1</script>'), 'a.pdf')).toMatchObject({
      code: 'file-type-refused',
    });
    expect(await refused(pdf.subarray(0, 30), 'a.pdf')).toMatchObject({
      ...{ code: 'file-type-refused', detail: expect.stringContaining('breaks off') as string },
    });
    const large = Buffer.concat([pdf, Buffer.alloc(15 * 1024 * 1024), pdf]);
    expect(await refused(large, 'a.pdf')).toMatchObject({ code: 'file-too-large' });
    expect((await action()).evidence.filter(({ file }) => file !== null)).toEqual([]);
  });

  test.each([
    ['../../etc/passwd.pdf', 'passwd.pdf'],
    ['a"; filename="b.html', 'a; filename=b.html'],
    ['\u202Efdp.exe', 'fdp.exe'],
    ['', 'evidence.pdf'],
    ['..', 'evidence.pdf'],
  ])('of a name as %j only %j is left', (given, left) => {
    expect(safeName(given, 'application/pdf')).toBe(left);
  });

  test('a very long name keeps its end', () => {
    const short = safeName(`${'😀'.repeat(300)}.pdf`, 'application/pdf');
    expect(short).toMatch(/^😀+….pdf$/u);
    expect(() => headersOf(short, 'application/pdf')).not.toThrow();
  });
});
