import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { launchBrowser } from '../support/browser.ts';
import { startServer, type TestServer } from '../support/server.ts';
import { raters } from '../../prisma/demo/cast.ts';
import { copyingRater } from '../../prisma/demo/year/stories.ts';
import { demoPeople } from './support/demo.ts';
import { dialog, fill, told } from './support/forms.ts';

let server: TestServer;
let browser: Browser;
let page: Page;

beforeAll(async () => {
  server = await startServer({ demo: true });
  browser = await launchBrowser();
  page = await (await demoPeople(browser, server.url).open('quality')).newPage();
});
afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

const copier = raters[copyingRater]!.name;

it('a look at the demo’s year tells of copied readings, with the houses behind and what else it may be', async () => {
  await page.goto('/signals');
  await page.getByRole('button', { name: 'Look at the readings' }).click();
  await dialog(page).getByRole('button', { name: 'Look at them' }).click();
  const row = page.getByRole('row').filter({ hasText: copier });
  await row.filter({ hasText: 'Closer to the reported figures' }).first().waitFor({ timeout: 60_000 });
  // Nobody else copies, so nobody else is told of.
  const names = await page.getByRole('table', { name: 'What stood out' }).innerText();
  for (const { name } of raters) expect(names.includes(name)).toBe(name === copier);
  await row.getByRole('link', { name: /^Closer to the reported figures/ }).click();
  await told(page, /readings lie within 1 % of what the installer reported/);
  await told(page, /nothing about a person/);
  expect(
    await page.getByRole('table', { name: 'Houses behind it' }).getByRole('row').count(),
  ).toBeGreaterThan(20);
});

it('the quality manager has houses behind it measured again, and the finding says so', async () => {
  await page.getByRole('button', { name: 'Order reviews or re-tests' }).click();
  await fill(dialog(page), { 'What for': 'The figures are too near each other' });
  await dialog(page).getByRole('button', { name: 'Order', exact: true }).click();
  await told(page, 'Followed up');
  await told(page, 'The figures are too near each other');
});
