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
  await test.app.database.as(system, (db) =>
    db.company.update({ where: { id: 1 }, data: { blindSecondReading: true } }),
  );
  await signFigures(test, test.company.house, {
    supplyStatic: 0.08571,
    returnStatic: 0.10173,
    airflow: 1034.5,
  });
  visit = await bookVisit(test, test.company.house.id);
});
afterAll(() => test.close());

it('sends no rater a figure that he has not measured himself', async () => {
  const { system: ducts } = partsOf(test.company.house);
  const before = await rater.get(`/visits/${visit}/sheet`);
  expect(before.json<VisitSheet>().blind).toBe(true);
  expect(before.body).not.toContain('0.08571');
  expect(before.body).not.toContain('0.10173');
  // What no test of his measures again keeps nothing from him.
  expect(before.json<VisitSheet>().file.reported[ducts]).toEqual({ airflow: 1034.5 });
  expect(before.json<VisitSheet>().file.hidden).toEqual(
    expect.arrayContaining([{ test: 'supply-static', subjectId: ducts }]),
  );

  const office = (await (await test.as('office')).get(`/visits/${visit}/sheet`)).json<VisitSheet>();
  expect(office.blind).toBe(false);
  expect(office.file.reported[ducts]).toMatchObject({ supplyStatic: 0.08571 });

  const manometer = test.company.instruments.manometer.id;
  const own = readingOf('supply-static', ducts, manometer, { values: { pressure: 0.09 } });
  const after = await rater.post(`/visits/${visit}/readings`, own);
  const sheet = after.json<VisitSheet>();
  expect(sheet.file.reported[ducts]).toEqual({ airflow: 1034.5, supplyStatic: 0.08571 });
  expect(sheet.verdicts.find(({ item }) => item === 'supply-static')).toMatchObject({ status: 'pass' });
  expect(after.body).not.toContain('0.10173');
});

it('keeps them from him on the other pages of the house too', async () => {
  const { id } = test.company.house;
  for (const url of [
    `/houses/${id}`,
    `/houses/${id}/events?pageSize=100`,
    `/visits/${visit}`,
    `/houses/${id}/submissions`,
  ]) {
    const answer = await rater.get(url);
    expect(answer.statusCode, url).toBe(200);
    expect(answer.body, url).not.toContain('0.10173');
  }
});
