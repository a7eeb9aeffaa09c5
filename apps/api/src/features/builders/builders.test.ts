import { afterAll, beforeAll, expect, test } from 'vitest';
import { startApp, type TestApp } from '../../../../../tests/support/app.ts';

let t: TestApp;
beforeAll(async () => {
  t = await startApp();
});
afterAll(() => t.close());

test('the office registers a builder once', async () => {
  const office = await t.as('office');
  const answer = await office.post('/builders', { name: 'Heron Gate Homes', phone: '' });
  expect(answer.statusCode).toBe(201);
  expect(answer.json()).toMatchObject({ name: 'Heron Gate Homes', phone: null, active: true, houses: 0 });
  const again = await office.post('/builders', { name: 'Heron Gate Homes' });
  expect(again.json()).toMatchObject({ code: 'already-exists', status: 409 });
});
