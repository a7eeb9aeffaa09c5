import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { launchBrowser } from '../support/browser.ts';
import { startServer, type TestServer } from '../support/server.ts';
import { raters } from '../../prisma/demo/cast.ts';
import { copyingRater } from '../../prisma/demo/year/stories.ts';
import { demoPeople } from './support/demo.ts';
import { bookRater, repeatDraw, reviewByKeyboard } from './support/desk.ts';
import { showFailure } from './support/failure.ts';
import { dialog, fill, told } from './support/forms.ts';
import { barriers, listen, settled } from './support/health.ts';

let server: TestServer;
let browser: Browser;
let desk: Page;
let office: Page;
let folder: string;
const contexts: BrowserContext[] = [];
const troubles: string[] = [];
const copier = raters[copyingRater]!.name;
const colleague = raters[copyingRater + 1]!.name;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'quality-year-'));
  server = await startServer({ demo: true });
  browser = await launchBrowser();
  const people = demoPeople(browser, server.url);
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
afterEach(async ({ task }) => {
  if (task.result?.state === 'fail') await showFailure({ desk, office });
});
afterAll(async () => {
  for (const context of contexts) await context.close();
  await browser?.close();
  await server?.stop();
  rmSync(folder, { recursive: true, force: true });
});

const press = (page: Page, name: string) => page.getByRole('button', { name, exact: true }).click();
const panel = (name: string | RegExp) => desk.getByRole('region', { name });
const inDays = (days: number) => new Date(Date.now() + days * 86_400_000).toISOString().slice(0, 10);
const drawnFiles = () => desk.getByRole('table', { name: 'Files drawn' }).getByRole('row');

/** The house that the office books, found where the office looks for houses to book. */
async function tryToBook(rater: string, day: string): Promise<void> {
  await office.goto('/houses?stage=ready_to_book');
  await office.getByRole('table').getByRole('row').nth(1).getByRole('link').first().click();
  await office.getByRole('button', { name: 'Book a visit' }).first().click();
  await bookRater(office, rater, { day, start: '06:00', end: '07:00' });
}

describe('a year at the quality manager’s desk', () => {
  let draw: string;
  let record: string;

  it('she publishes a seed, freezes the year and draws ten percent of its files', async () => {
    await desk.goto('/draws');
    await settled(desk);
    await press(desk, 'Start a draw');
    await fill(desk, { Title: 'Ten percent of the year', 'Share, %': '10' });
    await press(desk, 'Publish the commitment');
    await desk.getByRole('heading', { name: 'Ten percent of the year', level: 1 }).waitFor();
    const commitment = await desk.getByLabel('Commitment (SHA-256 of the seed)').inputValue();
    expect(commitment).toMatch(/^[0-9a-f]{64}$/);
    expect(await desk.getByLabel('Seed', { exact: true }).count()).toBe(0);

    await fill(desk, { 'Which files': 'Both' });
    await press(desk, 'Count the files');
    await desk.getByText(/\d+ files of \d+ raters .* would be drawn/).waitFor();
    await press(desk, 'Freeze the population');
    await press(desk, 'Freeze it');
    await panel(/^Step 3/).waitFor();

    await fill(desk, { 'A witness’ contribution': 'dice 5 2 2' });
    await press(desk, 'Reveal the seed and draw');
    await panel('Files drawn').waitFor();
    await press(desk, 'Repeat the draw here');
    await desk.getByText('The draw was repeated: every part is the same.').waitFor();

    const waiting = desk.waitForEvent('download');
    await desk.getByRole('link', { name: 'Export draw.json' }).click();
    record = join(folder, 'draw.json');
    await (await waiting).saveAs(record);
    expect(JSON.parse(readFileSync(record, 'utf8'))).toMatchObject({
      ...{ commitment, witness: 'dice 5 2 2', method: 'stratified' },
    });
    await press(desk, 'Order the reviews');
    await desk.getByText('What the draw says').waitFor();
    await drawnFiles().filter({ hasText: 'Open' }).first().waitFor();
    expect(await barriers(desk)).toEqual([]);
    draw = desk.url();
  });

  it('she reviews a drawn file by single keys, well under a minute', async () => {
    const row = drawnFiles().filter({ hasText: colleague }).first();
    await row.getByRole('link', { name: /^Review of/ }).click();
    await desk.getByLabel('Shortcuts', { exact: true }).getByText('Take this review').waitFor();
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

    const { keys, steps } = await reviewByKeyboard(desk);
    expect(keys).toBe(steps + 3);
    // At two keys a second, a slow hand that looks while it presses.
    expect(keys / 2).toBeLessThan(60);
  });

  it('a look at the readings tells her of copied ones, of nobody else, and what else it may be', async () => {
    await desk.goto('/signals');
    await press(desk, 'Look at the readings');
    await dialog(desk).getByRole('button', { name: 'Look at them' }).click();
    const row = desk.getByRole('row').filter({ hasText: copier });
    await row.filter({ hasText: 'Closer to the reported figures' }).first().waitFor({ timeout: 60_000 });
    const names = await desk.getByRole('table', { name: 'What stood out' }).innerText();
    for (const { name } of raters) expect(names.includes(name)).toBe(name === copier);
    await row.getByRole('link', { name: /^Closer to the reported figures/ }).click();
    await told(desk, /readings lie within 1 % of what the installer reported/);
    await told(desk, /nothing about a person/);
    const behind = desk.getByRole('table', { name: 'Houses behind it' }).getByRole('row');
    expect(await behind.count()).toBeGreaterThan(20);
  });

  it('she orders a field re-test from the finding, and the office books it for somebody else', async () => {
    await press(desk, 'Order reviews or re-tests');
    const form = dialog(desk);
    const house = (await form.getByRole('row').nth(1).getByRole('rowheader').innerText()).split(',')[0]!;
    expect(await form.getByLabel(`Measure ${house} again`).isChecked()).toBe(true);
    await fill(form, { 'What for': 'The figures are too near each other' });
    await form.getByRole('button', { name: 'Order', exact: true }).click();
    await told(desk, 'Followed up');
    await told(desk, 'The figures are too near each other');

    await office.goto('/retests');
    await office.getByRole('row').filter({ hasText: house }).filter({ hasText: copier }).waitFor();
    await press(office, `Book the re-test at ${house}`);
    await bookRater(office, copier, { day: inDays(30), start: '06:00', end: '08:00' });
    await office.getByRole('alert').first().waitFor();
    await bookRater(office, colleague, { day: inDays(30), start: '06:00', end: '08:00' });
    await told(office, 'Visit booked');
  });

  it('she opens a corrective action that holds him, and the office is refused on its page', async () => {
    await desk.getByRole('link', { name: 'Open a corrective action' }).click();
    const form = dialog(desk, 'Open a corrective action');
    await form
      .getByLabel('Rater')
      .locator('option:checked', { hasText: copier })
      .waitFor({ state: 'attached' });
    await fill(form, {
      Cause: 'Figures copied from the installer',
      Action: 'Rides along with a colleague',
      'Clean files in a row': '2',
    });
    await form.getByLabel(/^Hold the rater/).check();
    await form.getByRole('button', { name: 'Open the action' }).click();
    await desk.getByRole('heading', { level: 1, name: `Corrective action: ${copier}` }).waitFor();
    await desk.getByText('0 of 2').waitFor();
    expect(await barriers(desk)).toEqual([]);

    await tryToBook(copier, inDays(40));
    await office.getByText('is held since').waitFor();
    await office.getByText('From', { exact: false }).filter({ hasText: 'nothing can be booked' }).waitFor();
  });

  it('two clean files of the draw restore him, and the office books him', async () => {
    for (let n = 0; n < 2; n += 1) {
      await desk.goto(draw);
      const open = drawnFiles().filter({ hasText: copier }).filter({ hasText: 'Open' }).first();
      await open.getByRole('link', { name: /^Review of/ }).click();
      await reviewByKeyboard(desk);
    }
    await desk.goto('/corrective-actions');
    await desk.getByRole('link', { name: copier }).first().click();
    await desk.getByText('2 of 2').waitFor();
    await desk.getByText('2 clean files in a row').waitFor();
    await tryToBook(copier, inDays(49));
    await told(office, 'Visit booked');
  });

  it('the draw is repeated bit for bit from its export; a changed export is refused', async () => {
    expect(repeatDraw(record)).toMatchObject({
      said: expect.stringContaining('The draw was repeated: every part is the same.') as string,
      status: 0,
    });
    // One of the drawn files left out.
    const { sample, ...rest } = JSON.parse(readFileSync(record, 'utf8')) as { sample: object[] };
    writeFileSync(record, JSON.stringify({ ...rest, sample: sample.slice(1) }));
    expect(repeatDraw(record)).toMatchObject({
      said: expect.stringContaining('This is NOT the draw that the record states.') as string,
      status: 1,
    });
    await desk.goto('/obligations');
    await settled(desk);
    await desk.getByRole('table', { name: 'File reviews by rater' }).waitFor();
    expect(troubles.filter((trouble) => !/409/.test(trouble))).toEqual([]);
  });
});
