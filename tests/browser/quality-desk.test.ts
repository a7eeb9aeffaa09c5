import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launchBrowser } from '../support/browser.ts';
import { startServer, type TestServer } from '../support/server.ts';
import { demoPeople } from './support/demo.ts';
import { dialog, fill, told } from './support/forms.ts';
import { barriers, listen } from './support/health.ts';

let server: TestServer;
let browser: Browser;
let ask: ReturnType<typeof demoPeople>['ask'];
let desk: Page;
let office: Page;
const contexts: BrowserContext[] = [];
const troubles: string[] = [];

interface House {
  id: string;
  address: string;
}
interface Review {
  id: string;
  rater: { id: string; name: string };
  house: House;
}
const inDays = (days: number) => new Date(Date.now() + days * 86_400_000).toISOString().slice(0, 10);

beforeAll(async () => {
  server = await startServer({ demo: true });
  browser = await launchBrowser();
  const people = demoPeople(browser, server.url);
  ask = people.ask;
  const open = async (who: 'quality' | 'office') => {
    const context = await people.open(who);
    contexts.push(context);
    const page = await context.newPage();
    troubles.push(...listen(page));
    return page;
  };
  desk = await open('quality');
  office = await open('office');
});
afterAll(async () => {
  for (const context of contexts) await context.close();
  await browser?.close();
  await server?.stop();
});

/** Reviews of released files of one rater, so many as are asked for. */
async function orderReviews(count: number): Promise<Review[]> {
  const { items } = await ask<{ items: House[] }>('quality', 'GET', '/houses?stage=released&pageSize=100');
  const byRater = new Map<string, Review[]>();
  for (const house of items) {
    const body = { houseId: house.id, dueOn: inDays(7), reason: 'Looked at again' };
    const review = await ask<Review>('quality', 'POST', '/file-reviews', body).catch(() => null);
    if (!review) continue;
    const own = [...(byRater.get(review.rater.id) ?? []), review];
    byRater.set(review.rater.id, own);
    if (own.length === count) return own;
  }
  throw new Error(`No rater of the demo has ${count} released files.`);
}

/** A file with nothing wrong, by single keys from taking it to ending it. Gives the keys that it took. */
async function reviewByKeyboard(page: Page, review: Review): Promise<{ keys: number; steps: number }> {
  await page.goto(`/file-reviews/${review.id}`);
  await page.getByRole('button', { name: 'Take this review' }).waitFor();
  let keys = 0;
  const press = async (key: string) => {
    await page.keyboard.press(key);
    keys += 1;
  };
  await press('t');
  await page.getByRole('button', { name: 'In order', exact: true }).waitFor();
  const progress = page.getByRole('status').filter({ hasText: /^Step \d+ of \d+/ });
  const steps = Number(/of (\d+)/.exec(await progress.innerText())![1]);
  for (let i = 0; i < steps; i += 1) {
    await press('o');
    await progress.filter({ hasText: `${i + 1} seen` }).waitFor();
  }
  await press('e');
  const ending = dialog(page, 'End the review?');
  await ending.getByText(`${steps} of ${steps} steps were looked at`).waitFor();
  // In the dialog the letters are letters again.
  await ending.getByLabel('Note').focus();
  await page.keyboard.type('oke');
  expect(await ending.getByLabel('Note').inputValue()).toBe('oke');
  await ending.getByLabel('Note').fill('');
  await ending.getByRole('button', { name: 'End it' }).focus();
  await press('Enter');
  await told(page, 'The file is clean.');
  return { keys, steps };
}

describe('the quality manager’s desk', () => {
  let reviews: Review[];

  it('reviews a file with nothing wrong by single keys, well under a minute', async () => {
    reviews = await orderReviews(3);
    const [first] = reviews as [Review];
    await desk.goto(`/file-reviews/${first.id}`);
    const help = desk.getByLabel('Shortcuts', { exact: true });
    await help.getByText('Take this review').waitFor();
    expect(await barriers(desk)).toEqual([]);
    // Switched off, a letter does nothing; nor does it with a modifier, which is the browser's.
    await desk.getByLabel('Letters as shortcuts').uncheck({ force: true });
    await desk.getByRole('heading', { level: 1 }).click();
    await desk.keyboard.press('j');
    await told(desk, /^Step 1 of/);
    await desk.getByLabel('Letters as shortcuts').check({ force: true });
    await desk.getByRole('heading', { level: 1 }).click();
    await desk.keyboard.press('Control+j');
    await told(desk, /^Step 1 of/);
    await desk.keyboard.press('j');
    await told(desk, /^Step 2 of/);
    await desk.keyboard.press('k');
    await told(desk, /^Step 1 of/);

    const { keys, steps } = await reviewByKeyboard(desk, first);
    console.log(`File review by keyboard: ${steps} steps, ${keys} keys`);
    expect(keys).toBe(steps + 3);
    // At two keys a second, a slow hand that looks while it presses.
    expect(keys / 2).toBeLessThan(60);
  });

  it('opens a corrective action that holds the rater; the office is refused', async () => {
    const { name } = reviews[0]!.rater;
    await desk.goto('/corrective-actions');
    await desk.getByRole('button', { name: 'Open an action' }).click();
    const form = dialog(desk, 'Open a corrective action');
    await fill(form, {
      Rater: name,
      Cause: 'Figures copied from the installer',
      Action: 'Rides along with a colleague',
      'Clean files in a row': '2',
    });
    await form.getByLabel(/^Hold the rater/).check();
    await form.getByRole('button', { name: 'Open the action' }).click();
    await desk.getByRole('heading', { level: 1, name: `Corrective action: ${name}` }).waitFor();
    await desk.getByText('0 of 2').waitFor();
    expect(await barriers(desk)).toEqual([]);

    await tryToBook(name);
    await office.getByText('is held since').waitFor();
    await office.getByText('From', { exact: false }).filter({ hasText: 'nothing can be booked' }).waitFor();
  });

  it('restores him by clean files, and the office books him', async () => {
    const { name } = reviews[0]!.rater;
    for (const review of reviews.slice(1)) await reviewByKeyboard(desk, review);
    await desk.goto('/corrective-actions');
    await desk.getByRole('link', { name }).first().click();
    await desk.getByText('2 of 2').waitFor();
    await desk.getByText('2 clean files in a row').waitFor();
    await tryToBook(name);
    await told(office, 'Visit booked');
    expect(troubles.filter((trouble) => !/409/.test(trouble))).toEqual([]);
  });
});

let day = 40;
async function tryToBook(rater: string): Promise<void> {
  const { items } = await ask<{ items: House[] }>('office', 'GET', '/houses?stage=ready_to_book');
  await office.goto(`/houses/${items[0]!.id}`);
  await office.getByRole('button', { name: 'Book a visit' }).first().click();
  const form = dialog(office);
  await form.getByLabel('Rater').locator('option', { hasText: rater }).waitFor({ state: 'attached' });
  const label = await form.getByLabel('Rater').locator('option', { hasText: rater }).innerText();
  await fill(form, { Rater: label.trim(), Day: inDays((day += 9)), Start: '06:00', End: '07:00' });
  await form.getByRole('button', { name: 'Book', exact: true }).click();
}
