import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApp, type Client, type TestApp } from '../../../../../tests/support/app.ts';
import { system } from '../../kernel/actor.ts';
import { loadHouseFile } from '../assessment/index.ts';

let test: TestApp;
let administrator: Client;
beforeAll(async () => {
  test = await startApp();
  administrator = await test.as('administrator');
});
afterAll(() => test.close());

const simple = { rule: 'simple-acceptance' };
const inFile = async () =>
  (await test.app.database.as(system, (db) => loadHouseFile(db, test.company.house.id))).decisionRule;

it('is simple acceptance until the company chooses a guard band, and stands in every file', async () => {
  expect((await administrator.get('/company')).json().decisionRule).toEqual(simple);
  expect(await inFile()).toEqual(simple);
  const band = { rule: 'guard-band', factor: 0.83 };
  const changed = await administrator.patch('/company', { decisionRule: band });
  expect(changed.json().decisionRule).toEqual(band);
  expect(await inFile()).toEqual(band);
  const kept = await administrator.patch('/company', { installerLinkDays: 20 });
  expect(kept.json().decisionRule).toEqual(band);
  await administrator.patch('/company', { decisionRule: simple });
  expect(await inFile()).toEqual(simple);
});

it('refuses a guard band that nobody could mean', async () => {
  for (const factor of [0, -1, 2.5, null]) {
    const answer = await administrator.patch('/company', { decisionRule: { rule: 'guard-band', factor } });
    expect([answer.statusCode, answer.json().fields[0].path]).toEqual([400, 'decisionRule.factor']);
  }
});
