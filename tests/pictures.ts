import { fileURLToPath } from 'node:url';
import type { Browser } from 'playwright-core';
import { demoPeople } from './browser/support/demo.ts';
import { fill } from './browser/support/forms.ts';
import { settled } from './browser/support/health.ts';
import { openVisit } from './browser/support/addresses.ts';
import { formOf, openItem, preview, read } from './browser/support/rater.ts';
import { lookedAt, withBrowser } from './support/looking.ts';

// Takes the pictures of the documentation anew: node --import tsx tests/pictures.ts
// It records readings, so it wants a demo that nobody else works on.
const pictureAt = (name: string) => fileURLToPath(new URL(`../docs/pictures/${name}.png`, import.meta.url));
const title = 'Supply static pressure';

async function sheet(browser: Browser): Promise<void> {
  const people = demoPeople(browser, lookedAt);
  const context = await people.open('rater');
  const page = await context.newPage();
  await page.setViewportSize({ width: 1280, height: 1040 });
  await page.goto(`/visits/${await openVisit(people.ask)}`);
  await settled(page);
  const opened = await openItem(page, 'Total duct leakage');
  const duct = await formOf(opened, 'Total duct leakage');
  const instrument = await duct
    .getByLabel(/^Instrument/)
    .locator('option')
    .nth(1)
    .innerText();
  const fields = { 'Duct pressure': '25', 'Fan flow': '212' };
  await read(page, { title: 'Total duct leakage' }, { instrument, fields });
  await opened.locator('> summary').click();
  const form = await formOf(await openItem(page, title), title);
  for (const box of await form.getByRole('checkbox').all()) await box.check();
  await form.getByLabel(/^Instrument/).selectOption({ index: 1 });
  await fill(form, { Pressure: '0.092' });
  await page.locator('.mantine-Notification-root').waitFor({ state: 'detached' });
  await preview(form).evaluate((element) => element.scrollIntoView({ block: 'end' }));
  await page.evaluate('window.scrollBy(0, 40)');
  await page.screenshot({ path: pictureAt('sheet') });
  await context.close();
}

async function file(browser: Browser): Promise<void> {
  const people = demoPeople(browser, lookedAt);
  const context = await people.open('quality');
  const page = await context.newPage();
  await page.setViewportSize({ width: 1280, height: 1000 });
  const queue = await people.ask('quality', 'GET', '/reviews/queue');
  await page.goto(`/review/${queue.items[0]!.id}`);
  await settled(page);
  await page.locator('summary').filter({ hasText: title }).first().click();
  const photo = page.locator('main img').first();
  await photo.evaluate((image: unknown) => (image as { decode(): Promise<void> }).decode());
  await page.screenshot({ path: pictureAt('file') });
  await context.close();
}

await withBrowser(async (browser) => {
  await sheet(browser);
  await file(browser);
});
