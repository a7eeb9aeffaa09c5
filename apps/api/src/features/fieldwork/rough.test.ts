import { afterAll, beforeAll, expect, it } from 'vitest';
import type { VisitSheet } from '@countercheck/contracts';
import { startApp, type Client, type TestApp } from '../../../../../tests/support/app.ts';
import { addHouse } from '../../../../../tests/support/fixture.ts';
import {
  bookVisit,
  good,
  partsOf,
  readingOf,
  sheetOf,
  signFigures,
} from '../../../../../tests/support/house-life.ts';
import { system } from '../../kernel/actor.ts';

let test: TestApp;
let rater: Client;
let house: TestApp['company']['house'];

beforeAll(async () => {
  test = await startApp();
  rater = await test.as('rater');
  house = await test.app.database.as(system, async (db) => {
    const { id } = await db.ruleSet.findFirstOrThrow({ where: { key: 'energy-code-2018' } });
    return addHouse(db, id, test.company.builder, { lot: '77' });
  });
  await signFigures(test, house);
});
afterAll(() => test.close());

it('a rough visit is about rough-in only and leaves the rest for another visit', async () => {
  const visit = await bookVisit(test, house.id, { kind: 'rough' });
  const sheet = await sheetOf(rater, visit);
  expect(new Set(sheet.verdicts.map(({ stage }) => stage))).toEqual(new Set(['rough']));
  expect((await rater.post(`/visits/${visit}/submission`, {})).json()).toMatchObject({
    code: 'visit-not-complete',
  });
  const tester = test.company.instruments.ductTester.id;
  const ducts = partsOf(house).system;
  const answer = await rater.post(
    `/visits/${visit}/readings`,
    readingOf('duct-leakage-rough', ducts, tester, good['duct-leakage-rough']),
  );
  expect(answer.json<VisitSheet>().verdicts.map(({ status }) => status)).toEqual(['pass']);
  const submitted = await rater.post(`/visits/${visit}/submission`, {});
  expect(submitted.json()).toMatchObject({ state: 'submitted', house: { stage: 'ready_to_book' } });
});

it('a final visit does not wait for a rough-in that nobody can read any more', async () => {
  const visit = await bookVisit(test, house.id, { kind: 'final' });
  const sheet = await sheetOf(rater, visit);
  expect(sheet.verdicts.filter(({ stage }) => stage === 'rough')).toEqual([]);
  expect(sheet.verdicts.length).toBeGreaterThan(0);
});
