import { afterAll, beforeAll, expect, it } from 'vitest';
import type { CorrectiveAction } from '@countercheck/contracts';
import { startApp, type Client, type TestApp } from '../../../../../tests/support/app.ts';
import { addHouse } from '../../../../../tests/support/fixture.ts';
import { bookVisit, readEverything, signFigures } from '../../../../../tests/support/house-life.ts';
import { system } from '../../kernel/actor.ts';

let t: TestApp;
let quality: Client;
let rater: Client;
let id: string;
beforeAll(async () => {
  t = await startApp();
  [quality, rater] = [await t.as('quality'), await t.as('rater')];
});
afterAll(() => t.close());

const inside = <T>(work: Parameters<typeof t.app.database.as<T>>[1]) => t.app.database.as(system, work);
const newHouse = (lot: string, stage: 'awaiting_figures' | 'in_review') =>
  inside((db) => addHouse(db, t.company.ruleSet.id, t.company.builder, { lot, stage }));
const action = async () => (await quality.get(`/corrective-actions/${id}`)).json<CorrectiveAction>();
const lots = () =>
  inside(async (db) => {
    const rows = await db.retest.findMany({
      where: { correctiveActionId: id },
      orderBy: { id: 'asc' },
      select: { orderedBy: true, house: { select: { lot: true } } },
    });
    return rows.map(({ orderedBy, house }) => `${house.lot} by ${orderedBy}`);
  });

/** A house that the rater measures and hands in, as on any day. */
async function handIn(lot: string): Promise<string> {
  const house = await newHouse(lot, 'awaiting_figures');
  await signFigures(t, house);
  const visit = await bookVisit(t, house.id);
  await readEverything(t, rater, visit);
  const answer = await rater.post(`/visits/${visit}/submission`, {});
  expect(answer.json(), answer.body).toMatchObject({ state: 'submitted' });
  return house.id;
}

/** A file from earlier in the year: of that day of January. */
async function earlierFile(lot: string, day: number): Promise<void> {
  const { id: houseId } = await newHouse(lot, 'in_review');
  const startsAt = new Date(Date.UTC(new Date().getUTCFullYear(), 0, day, 18));
  const endsAt = new Date(startsAt.getTime() + 36e5);
  const visit = { houseId, raterId: t.company.users.rater.id, kind: 'final' as const, startsAt, endsAt };
  await inside((db) => db.visit.create({ data: { ...visit, state: 'submitted', submittedAt: endsAt } }));
}

const open = async (about: object) => {
  const rest = { action: 'Trained', cleanFilesNeeded: 5, effectivenessDueOn: '2027-12-01' };
  const opened = await quality.post('/corrective-actions', { ...about, ...rest });
  expect(opened.statusCode, opened.body).toBe(201);
  return opened.json<CorrectiveAction>().id;
};

it('orders what a new file makes due in the transaction that makes it one', async () => {
  await earlierFile('first', 5);
  await earlierFile('second', 6);
  const { rater: his } = t.company.users;
  id = await open({ subject: 'rater', raterId: his.id, cause: 'Skipped rooms', raisedFieldShare: 1 });
  const { id: builderId } = t.company.builder;
  const own = await open({ subject: 'builder', builderId, cause: 'Late', raisedFileShare: 0.4 });
  const { id: otherId } = t.company.otherBuilder;
  await open({ subject: 'builder', builderId: otherId, cause: 'Late', raisedFileShare: 1 });
  expect((await lots()).sort()).toEqual(['first by Quality Desk', 'second by Quality Desk']);
  const reviews = () => inside((db) => db.fileReview.findMany({ where: { source: 'corrective' } }));
  expect(await reviews()).toHaveLength(1);

  const third = await handIn('third');
  expect(await lots()).toContain('third by Countercheck');
  // 0.4 of three files, rounded up, is one more than of two; the newest is taken.
  expect((await reviews()).filter(({ houseId }) => houseId === third)).toMatchObject([
    { correctiveActionId: own, orderedBy: 'Countercheck' },
  ]);
  const [submitted, ...ordered] = await inside((db) =>
    Promise.all(
      ['visit submitted', 're-test ordered', 'file review ordered'].map((done) =>
        db.event.findFirstOrThrow({ where: { action: done, houseId: third } }),
      ),
    ),
  );
  for (const event of ordered)
    expect(event).toMatchObject({ requestId: submitted!.requestId, actorName: 'Countercheck' });
  expect(await inside((db) => db.visitRequest.count({ where: { houseId: third, kind: 'quality' } }))).toBe(1);
});

it('orders nothing again when the file is released', async () => {
  const released = await inside((db) => db.house.findFirstOrThrow({ where: { lot: 'third' } }));
  expect((await quality.post(`/houses/${released.id}/release`, {})).statusCode).toBe(201);
  expect(await lots()).toHaveLength(3);
});

it('orders nothing more once the action is closed', async () => {
  const url = `/corrective-actions/${id}`;
  await quality.post(`${url}/effectiveness`, { effective: true, note: 'No finding since' });
  expect((await quality.post(`${url}/closing`, { reason: 'Enough' })).json()).toMatchObject({
    state: 'closed',
  });
  await handIn('fourth');
  expect((await action()).orders).toHaveLength(3);
  expect(await lots()).toHaveLength(3);
});
