import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { launchBrowser } from '../support/browser.ts';
import { startServer, type TestServer } from '../support/server.ts';
import { barriers, listen, overhang, settled } from './support/health.ts';
import { acceptInvitation, firstAdministrator, newcomer, type Person } from './support/people.ts';

const keeper: Person = {
  name: 'Keeper of Accounts',
  email: 'keeper@weir.example',
  password: 'seven lanterns over a quiet weir',
};
let server: TestServer;
let browser: Browser;
let page: Page;

beforeAll(async () => {
  server = await startServer();
  browser = await launchBrowser();
  page = await newcomer(browser, server.url, 390);
  await acceptInvitation(page, await firstAdministrator(server, keeper), keeper);
});
afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

it.each([
  ['/', 'Overview'],
  ['/houses', 'No house'],
  ['/visits', 'No visit'],
  ['/reinspections', 'No reinspection'],
  ['/failed-items', 'No failed item'],
  ['/review', 'No file waits for review'],
  ['/builders', 'No builder'],
  ['/installers', 'No installer'],
  ['/instruments', 'No instrument'],
  ['/mail', 'No mail'],
])('%s has words for having nothing yet', async (path, words) => {
  const troubles = listen(page);
  await page.goto(path);
  await settled(page);
  expect(await page.locator('main').innerText()).toContain(words);
  expect(await overhang(page)).toBeLessThanOrEqual(0);
  expect(await barriers(page)).toEqual([]);
  expect(troubles).toEqual([]);
});
