import { afterAll, beforeAll, expect, it } from 'vitest';
import type { VisitSheet } from '@countercheck/contracts';
import { startApp, type Client, type TestApp } from '../../../../../tests/support/app.ts';
import { bookVisit, partsOf, readingOf, signFigures } from '../../../../../tests/support/house-life.ts';
import { system } from '../../kernel/actor.ts';

let test: TestApp;
let rater: Client;
let visit: string;

beforeAll(async () => {
  test = await startApp();
  rater = await test.as('rater');
  await signFigures(test, test.company.house, { supplyStatic: 0.085 });
  visit = await bookVisit(test, test.company.house.id);
});
afterAll(() => test.close());

const reading = (more: object) =>
  readingOf('supply-static', partsOf(test.company.house).system, test.company.instruments.manometer.id, {
    values: { pressure: 0.09 },
    ...more,
  });
const sheet = async () => (await rater.get(`/visits/${visit}/sheet`)).json<VisitSheet>();
const seenNow = async () => {
  const { visit: shown, figuresRevision } = await sheet();
  return { startsAt: shown.startsAt, endsAt: shown.endsAt, figuresRevision };
};

it('leaves it to a person when the visit was moved or the figures were signed anew meanwhile', async () => {
  const seen = await seenNow();
  expect(seen.figuresRevision).toBe(1);
  const body = { ...reading({}), seen, takenAt: new Date().toISOString() };
  await signFigures(test, test.company.house, { supplyStatic: 0.2 });
  await test.app.database.as(system, (db) =>
    db.visit.update({
      where: { id: visit },
      data: {
        startsAt: new Date(Date.parse(seen.startsAt) + 60_000),
        endsAt: new Date(Date.parse(seen.endsAt) + 60_000),
      },
    }),
  );
  const refused = (await rater.post(`/visits/${visit}/readings`, body)).json<{ fields: object[] }>();
  expect(refused).toMatchObject({ code: 'changed-meanwhile' });
  expect(refused.fields).toMatchObject([{ path: 'visit' }, { path: 'figures' }]);
  expect(JSON.stringify(refused)).toContain('revision 1; now there is the installer');
  const submission = { acceptWaiting: true, seen };
  expect((await rater.post(`/visits/${visit}/submission`, submission)).json()).toMatchObject({
    code: 'changed-meanwhile',
  });

  const future = { ...body, seen: await seenNow(), figuresChosen: 2 };
  expect((await rater.post(`/visits/${visit}/readings`, future)).json()).toMatchObject({
    fields: [{ path: 'figuresChosen' }],
  });
  const decided = { ...body, seen: await seenNow(), figuresChosen: 1 };
  const after = (await rater.post(`/visits/${visit}/readings`, decided)).json<VisitSheet>();
  expect(after.figuresRevision).toBe(1);
  expect(after.file.reported[partsOf(test.company.house).system]).toMatchObject({ supplyStatic: 0.085 });
});
