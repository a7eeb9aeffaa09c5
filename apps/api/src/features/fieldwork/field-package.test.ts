import { afterAll, beforeAll, expect, it } from 'vitest';
import type { FieldPackage, VisitSheet } from '@countercheck/contracts';
import { startApp, type Client, type TestApp } from '../../../../../tests/support/app.ts';
import { bookVisit, partsOf, readingOf, signFigures } from '../../../../../tests/support/house-life.ts';
import { system } from '../../kernel/actor.ts';

let test: TestApp;
let rater: Client;

beforeAll(async () => {
  test = await startApp();
  rater = await test.as('rater');
  await signFigures(test, test.company.house, { supplyStatic: 0.08571, returnStatic: 0.1 });
});
afterAll(() => test.close());

const pack = async (query = '') =>
  (await rater.get(`/field-package?days=2${query}`)).json<{
    version: string;
    content: FieldPackage | null;
  }>();

it('holds the sheets of the rater’s own next days, and what they share once', async () => {
  const { house, otherHouse } = test.company;
  const visits = [await bookVisit(test, house.id), await bookVisit(test, house.id)];
  const other = await bookVisit(test, otherHouse.id, { rater: 'otherRater' });
  const { version, content } = await pack();
  expect(content!.sheets.map(({ visit }) => visit.id)).toEqual(visits);
  expect(JSON.stringify(content)).not.toContain(other);
  expect(content!.ruleSets).toHaveLength(1);
  const { instruments, ruleSet, ...sheet } = (
    await rater.get(`/visits/${visits[0]}/sheet`)
  ).json<VisitSheet>();
  expect(content!.sheets[0]).toEqual({ ...sheet, ruleSetId: ruleSet.id });
  expect(content).toMatchObject({ instruments, ruleSets: [ruleSet] });
  expect(content!.instruments[0]!.calibrations.length).toBeGreaterThan(0);

  expect(await pack(`&known=${version}`)).toEqual({ version, content: null });
  const reading = readingOf('supply-static', partsOf(house).system, test.company.instruments.manometer.id, {
    values: { pressure: 0.09 },
  });
  await rater.post(`/visits/${visits[0]}/readings`, reading);
  const next = await pack(`&known=${version}`);
  expect(next.version).not.toBe(version);
  expect(next.content!.sheets[0]!.readings).toMatchObject([{ id: reading.id }]);
});

it('keeps back what a blind second reading keeps back', async () => {
  await test.app.database.as(system, (db) =>
    db.company.update({ where: { id: 1 }, data: { blindSecondReading: true } }),
  );
  const { content } = await pack();
  expect(content!.company.blindSecondReading).toBe(true);
  expect(content!.sheets[1]).toMatchObject({ blind: true, figuresRevision: 1 });
  // The first test was read on the visit before; the other one is still kept from him.
  const { system: ducts } = partsOf(test.company.house);
  expect(content!.sheets[1]!.file.reported[ducts]).toEqual({ supplyStatic: 0.08571 });
});
