import { randomUUID } from 'node:crypto';
import sharp from 'sharp';
import type { Browser, BrowserContext, Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { VisitSheet } from '@countercheck/contracts';
import { withClient } from '@countercheck/host/database';
import { testDefinitions, type TestKey } from '@countercheck/measurement';
import { launchBrowser } from '../support/browser.ts';
import { good, readingOf } from '../support/house-life.ts';
import { startServer, type TestServer } from '../support/server.ts';
import { demoPeople } from './support/demo.ts';
import { barriers } from './support/health.ts';
import * as rater from './support/rater.ts';

let server: TestServer;
let browser: Browser;
let people: ReturnType<typeof demoPeople>;
let context: BrowserContext;
let page: Page;
let visits: VisitSheet[];

beforeAll(async () => {
  server = await startServer({ demo: true });
  browser = await launchBrowser();
  people = demoPeople(browser, server.url);
  const { content } = await people.ask<{ content: { sheets: VisitSheet[] } }>(
    'rater',
    'GET',
    '/field-package',
  );
  visits = content.sheets.filter(({ visit }) => visit.state === 'booked' && visit.kind === 'final');
  context = await people.open('rater', { width: 390 });
  page = await context.newPage();
});
afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

const at = (i: number) => visits[i]!.visit;
const sheetAt = (id: string) => people.ask<VisitSheet>('rater', 'GET', `/visits/${id}/sheet`);
const pad = () => page.getByRole('dialog');
const openWork = () => page.locator('[data-work]');
const textOf = () => pad().locator('.pad-entry input').inputValue();

async function open(i: number): Promise<void> {
  await page.goto(`/visits/${at(i).id}`);
  await openWork().first().waitFor();
}

/** Nothing in the way of anybody, by day and in a dark basement. */
async function readableInBoth(): Promise<void> {
  for (const colorScheme of ['dark', 'light'] as const) {
    await page.emulateMedia({ colorScheme });
    expect(await barriers(page), colorScheme).toEqual([]);
  }
}

/** The form of the envelope test with a log chosen for it. */
async function load(log: string): Promise<Locator> {
  const form = await rater.formOf(await rater.openItem(page, 'Envelope leakage'), 'Envelope leakage');
  const chooser = page.waitForEvent('filechooser');
  await form.getByRole('button', { name: 'Load logged points' }).click();
  const file = { name: 'log.csv', mimeType: 'text/csv', buffer: Buffer.from(log) };
  await (await chooser).setFiles(file);
  return form;
}
const points = [50, 40, 30, 20, 15].map((pressure, i) => [`-${pressure}.${i}`, `${900 - i * 120}.5`]);
const logOf = (...head: string[]) =>
  [
    ...['Log of Monday', '', head.join(',')],
    ...points.map(([pressure, flow], i) => `10:0${i},${pressure},${flow}`),
    '10:09,OL,OL',
  ].join('\n');

it('takes the points that a manometer logged, and remembers which column is which', async () => {
  await open(0);
  const form = await load(logOf('Time', 'Channel one', 'Channel two'));
  const pressure = () => form.getByLabel(/^House pressure to outdoors, Pa/);
  expect(await pressure().inputValue()).toBe('');
  const take = form.getByRole('button', { name: /^Take 6 lines/ });
  await take.click();
  await form.getByText('No line has a number in every column that is needed.').waitFor();
  await pressure().selectOption({ label: 'Channel one' });
  await form.getByLabel(/^Fan flow, cfm/).selectOption({ label: 'Channel two' });
  await take.click();
  // Named by its place in the file.
  await form
    .getByText('5 points were taken from the file. Lines without numbers were left out: 9.')
    .waitFor();
  for (const box of await form.getByRole('checkbox').all()) await box.check();
  await form.getByLabel(/^Instrument/).selectOption({ index: 1 });
  await form.getByLabel(/^Baseline before/).fill('0');
  await rater.recordReading(page, form);
  await rater.allSent(page);
  const reading = (await sheetAt(at(0).id)).readings.find(({ visitId }) => visitId === at(0).id)!;
  expect(reading.raw.rows.map(({ values }) => [values['housePressure'], values['flow']])).toEqual(
    points.map((each) => each.map(Number)),
  );
  expect(reading.entered['rows.0.values.housePressure']?.text).toBe('-50.0');

  // A photo by the phone's camera is of the item that it was taken at, and made smaller before it is sent.
  const item = rater.item(page, 'Envelope leakage');
  expect(await item.locator('input[type=file][capture=environment]').count()).toBe(1);
  const size = { width: 3200, height: 2000, channels: 3, background: '#345' } as const;
  await rater.addPhoto(page, item, 'Gauge', await sharp({ create: size }).png().toBuffer());
  await rater.allSent(page);
  expect((await sheetAt(at(0).id)).photos.find(({ visitId }) => visitId === at(0).id)).toMatchObject({
    ...{ item: 'envelope-leakage', caption: 'Gauge', width: 2500, mediaType: 'image/jpeg' },
  });

  await open(1);
  // The same heading: nothing is asked, and what was typed by hand is not replaced unsaid.
  const next = await rater.formOf(await rater.openItem(page, 'Envelope leakage'), 'Envelope leakage');
  await next
    .getByLabel(/^House pressure/)
    .first()
    .fill('-49');
  await load(logOf('Time', 'Channel one', 'Channel two'));
  const chosen = (field: RegExp) => next.getByLabel(field).locator('option:checked').innerText();
  expect(await chosen(/^House pressure to outdoors, Pa/)).toBe('Channel one');
  expect(await chosen(/^Fan flow, cfm/)).toBe('Channel two');
  await next.getByRole('button', { name: 'Take 6 lines in place of the 1 typed' }).click();
  await next.getByText('5 points were taken').waitFor();
  expect(await next.getByLabel(/^House pressure/).count()).toBe(5);
  // Another heading is asked about again, and a file that is none is refused in words.
  await load(logOf('Time', 'Channel two', 'Channel one'));
  expect(await next.getByLabel(/^House pressure to outdoors, Pa/).inputValue()).toBe('');
  await next.getByRole('button', { name: 'Leave it' }).click();
  await load('PK\u0003\u0004 "broken');
  await next.getByText('This file has no lines of numbers under a line of names.').waitFor();
  expect(await next.getByLabel(/^House pressure/).count()).toBe(5);
}, 90_000);

it('keeps the time over which a number was averaged, over a reload, with the reading', async () => {
  await page.clock.install();
  await open(1);
  const line = page.locator('[data-work^="supply-static/"] button');
  await line.click();
  await pad().locator('[data-field="values.pressure"]').click();
  await page.keyboard.type('0.092');
  await pad().getByRole('button', { name: 'Average over 30 seconds' }).click();
  await pad().getByRole('timer').getByText('30 s').waitFor();
  await page.clock.fastForward(12_000);
  await pad()
    .getByRole('timer')
    .getByText(/^1[78] s/)
    .waitFor();
  // What was typed and timed is written down a moment after the key.
  await page.waitForTimeout(200);
  await page.reload();
  await openWork().first().waitFor();
  await line.click();
  await pad().locator('[data-field="values.pressure"]').click();
  expect(await textOf()).toBe('0.092');
  await pad().getByRole('timer').waitFor();
  await page.clock.fastForward(20_000);
  await pad().getByText('The time is over: enter the average. Averaged over 30 s').waitFor();
  await pad().locator('[data-field="confirmations"]').click();
  for (const box of await pad().getByRole('checkbox').all()) await box.check();
  await pad().locator('[data-field="instrument"]').click();
  await pad().locator('.pad-options button').first().click();
  await pad().getByRole('button', { name: 'Record the reading' }).click();
  await pad()
    .getByText(/^Recorded\./)
    .waitFor();
  await page.keyboard.press('Escape');
  const opened = await rater.openItem(page, 'Supply static pressure');
  await opened.getByText('As entered').click();
  await opened.getByText('0.092 in. w.c., averaged over 30 s').waitFor();
  await rater.allSent(page);
  const { readings } = await sheetAt(at(1).id);
  expect(
    readings.find(({ test, visitId }) => test === 'supply-static' && visitId === at(1).id),
  ).toMatchObject({
    conditions: { averagedSeconds: { 'values.pressure': 30 } },
  });
}, 90_000);

/**
 * Reads everything at the service but the tests of a kind, so that the sheet begins with those. Of the rooms' pressures
 * no reading counts, which leaves it to the openings whether a room is relieved.
 */
async function readAllBut(i: number, kept: TestKey): Promise<void> {
  const sheet = visits[i]!;
  const uncalibrated = await people.ask<{ id: string }>('quality', 'POST', '/instruments', {
    ...{ kind: 'manometer', label: 'New gauge', serial: randomUUID().slice(0, 12) },
    ...{ accuracyPercent: 1, accuracyAbsolute: 0.5 },
  });
  const works = await openWork().evaluateAll((all) => all.map((each) => each.getAttribute('data-work')!));
  for (const [test, subject] of works.map((each) => each.split('/') as [TestKey, string])) {
    if (test === kept) continue;
    const { instrumentKinds, instrumentRequired } = testDefinitions[test];
    const tool = (await sheetAt(sheet.visit.id)).instruments.find(
      ({ kind, inCalibration }) => inCalibration && instrumentKinds.some((each) => each === kind),
    );
    const used = test === 'bedroom-pressure' ? uncalibrated.id : instrumentRequired ? tool!.id : null;
    const reading = readingOf(test, subject, used, good[test]);
    await people.ask('rater', 'POST', `/visits/${sheet.visit.id}/readings`, reading);
  }
}

it('leads from test to test with a thumb: what was read last beside it, and a reading taken back', async () => {
  await open(2);
  await readAllBut(2, 'bedroom-relief');
  await page.reload();
  await page.locator('.work-next[data-work^="bedroom-relief/"]').waitFor();
  await page.waitForLoadState('networkidle');
  await context.setOffline(true);
  const [first, second] = await openWork().evaluateAll((all) =>
    all.map((each) => each.getAttribute('data-work')!),
  );

  // One key at the foot of the screen goes on where it was left.
  await page.locator('.work-bar button').click();
  await pad().locator('[data-field="instrument"]').click();
  await pad().locator('.pad-options button').first().click();
  await page.keyboard.type('100');
  await pad().getByRole('button', { name: 'Save and next' }).click();
  await pad().locator('.pad-options button').filter({ hasText: 'grille' }).first().click();
  await pad().locator('[data-field="rows.0.values.freeArea"]').click();
  await page.keyboard.type('60');
  await pad().getByRole('button', { name: 'Save and next' }).click();
  const record = pad().getByRole('button', { name: 'Record the reading' });
  await record.click();

  // Not sent yet: it is taken back into its form, and nothing is left of it on the sheet.
  await pad().getByRole('button', { name: 'Undo: it is not sent yet' }).click();
  await record.waitFor();
  await pad().locator('[data-field="values.supplyFlow"]').click();
  expect(await textOf()).toBe('100');
  await pad().getByRole('button', { name: 'Take back the last digit' }).click();
  await pad().getByRole('button', { name: 'Undo' }).click();
  expect(await textOf()).toBe('100');
  await pad().getByRole('button', { name: 'Save and next' }).click();
  await record.click();
  await page.locator('.phone-status').getByText('1 not sent').waitFor();

  // The next one begins at its number, and stays there while it is typed.
  await pad().getByRole('button', { name: 'Go on with the next test' }).click();
  await pad().getByText('Last reading kept: 100').waitFor();
  await page.keyboard.type('85');
  await readableInBoth();
  expect(await textOf()).toBe('85');
  await page.keyboard.press('Escape');
  expect(await page.locator('.work-next').getAttribute('data-work')).toBe(second);
  expect(first).not.toBe(second);

  // A later test is a line: a tap on it and one on a field, and every key is kept.
  const third = page.locator('.work:not(.work-next)').first();
  await third.locator('button').click();
  await pad().locator('[data-field="rows.0.values.freeArea"]').click();
  await page.keyboard.type('42');
  await page.keyboard.press('Escape');
  await third.locator('button').click();
  await pad().locator('[data-field="rows.0.values.freeArea"]').click();
  expect(await textOf()).toBe('42');
  await page.keyboard.press('Escape');
  await context.setOffline(false);
  await rater.allSent(page);
}, 90_000);

const readHere = async (i: number) =>
  (await sheetAt(at(i).id)).readings.filter(({ visitId }) => visitId === at(i).id);

/** Writes until the browser takes no more, down to its last few bytes. */
const fillUp = `new Promise((resolve, reject) => {
  const asked = indexedDB.open('other', 1);
  asked.onupgradeneeded = () => asked.result.createObjectStore('all', { autoIncrement: true });
  asked.onerror = () => reject(asked.error);
  asked.onsuccess = async () => {
    const put = (size) => new Promise((done) => {
      const tx = asked.result.transaction('all', 'readwrite');
      tx.objectStore('all').put(crypto.getRandomValues(new Uint8Array(size)));
      tx.oncomplete = () => done(true);
      tx.onabort = () => done(false);
    });
    for (let size = 65536; size >= 64; size /= 2) while (await put(size));
    resolve();
  };
})`;

it('says that a full phone keeps nothing more, loses nothing, and sends what it has', async () => {
  const other = await people.open('rater', { width: 390 });
  const full = await other.newPage();
  const browserSide = await other.newCDPSession(full);
  const room = (quotaSize?: number) =>
    browserSide.send('Storage.overrideQuotaForOrigin', {
      origin: server.url,
      ...(quotaSize ? { quotaSize } : {}),
    });
  await room(4_000_000);
  await full.goto(`/visits/${at(0).id}`);
  await full.locator('[data-work]').first().waitFor();
  const status = (words: string | RegExp) => full.locator('.phone-status').getByText(words).waitFor();
  await other.route('**/readings**', (route) => route.abort());
  await rater.recordReading(full, await rater.typeStatic(full, 'Return static pressure', '-0.1'));
  await status('1 not sent');
  await full.evaluate(fillUp);
  const form = await rater.typeStatic(full, 'Supply static pressure', '0.091');
  await status('No room left on this phone');
  await form.getByRole('button', { name: 'Record the reading' }).click();
  await form.getByText('What you typed is still in the form.').waitFor();
  expect(
    await form
      .getByLabel(/^Pressure/)
      .first()
      .inputValue(),
  ).toBe('0.091');
  // No room to write down that it is being sent, and it is sent all the same.
  await other.unroute('**/readings**');
  await full.evaluate('window.dispatchEvent(new Event("online"))');
  await expect.poll(async () => (await readHere(0)).map(({ test }) => test)).toContain('return-static');
  await room();
  await form.getByRole('button', { name: 'Record the reading' }).click();
  await rater.allSent(full);
  expect((await readHere(0)).filter(({ test }) => /return-static|supply-static/.test(test))).toHaveLength(2);
  await other.close();
}, 90_000);

/** Three hours fast, as a phone is that was set by hand. */
const aheadOfTime = `{
  const Right = Date;
  globalThis.Date = class extends Right {
    constructor(...given) {
      if (given.length === 0) super(Right.now() + 3 * 3_600_000);
      else super(...given);
    }
    static now() {
      return Right.now() + 3 * 3_600_000;
    }
  };
}`;

it('says that the phone’s clock is wrong, and sets the time of a reading right when told', async () => {
  const fast = await people.open('rater', { width: 390 });
  await fast.addInitScript(aheadOfTime);
  const early = await fast.newPage();
  await early.goto(`/visits/${at(0).id}`);
  await early.locator('.phone-status').getByText('This phone’s clock is 3 h ahead').waitFor();
  const item = await rater.openItem(early, 'Supply static pressure');
  await item.getByRole('button', { name: 'Correct this reading' }).click();
  const form = await rater.typeStatic(early, 'Supply static pressure', '0.095');
  await form.getByLabel('Why is the reading corrected?').fill('Read the other display');
  await rater.recordReading(early, form);
  await early.locator('.phone-status').getByText('1 needs your decision').click();
  await early.getByText('This time lies in the future.').waitFor();
  await early.getByRole('button', { name: 'Send it with the time set right, 3 h earlier' }).click();
  await rater.allSent(early);
  const sent = (await readHere(0)).find(
    ({ supersedeReason }) => supersedeReason === 'Read the other display',
  )!;
  expect(sent.conditions).toEqual({ clockAheadMinutes: 180 });
  expect(Math.abs(Date.now() - Date.parse(sent.takenAt))).toBeLessThan(120_000);
  await fast.close();
}, 90_000);

it('keeps what was read on a visit that the office called off meanwhile, for another visit there', async () => {
  const off = randomUUID();
  await withClient(server.ownerUrl, (client) =>
    client.query(
      `INSERT INTO visits (id, house_id, rater_id, kind, starts_at, ends_at, updated_at)
       SELECT $2, house_id, rater_id, kind, at, at + interval '1 hour', now()
       FROM (SELECT *, date_trunc('day', now()) + interval '1 day 5 hours' AS at FROM visits WHERE id = $1) one`,
      [at(1).id, off],
    ),
  );
  await page.goto(`/visits/${off}`);
  await context.route('**/readings**', (route) => route.abort());
  await rater.recordReading(page, await rater.typeStatic(page, 'Return static pressure', '-0.1'));
  const cancelled = { cause: 'The house is sold' };
  await people.ask('office', 'POST', `/visits/${off}/cancellation`, cancelled);
  await context.unroute('**/readings**');
  await page.evaluate('window.dispatchEvent(new Event("online"))');
  await page.locator('.phone-status').getByText('1 needs your decision').click();
  await page.getByText('This visit is closed').waitFor();
  const elsewhere = page.getByRole('button', { name: /^Send it for the visit of/ });
  // It can be pressed as soon as the visit as it is now has been asked for.
  await expect.poll(() => elsewhere.isEnabled()).toBe(true);
  await page.waitForLoadState('networkidle');
  await readableInBoth();
  await elsewhere.click();
  await rater.allSent(page);
  const statics = (await readHere(1)).filter(({ test }) => test === 'return-static');
  expect(statics.map(({ raw }) => raw.values['pressure'])).toEqual([-0.1]);
}, 90_000);
