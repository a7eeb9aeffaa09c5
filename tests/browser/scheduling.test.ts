import ICAL from 'ical.js';
import { simpleParser, type ParsedMail } from 'mailparser';
import type { AddressInfo } from 'node:net';
import type { Browser, Page } from 'playwright-core';
import { SMTPServer } from 'smtp-server';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { launchBrowser } from '../support/browser.ts';
import { startServer, type TestServer } from '../support/server.ts';
import { demoPeople } from './support/demo.ts';
import { showFailure } from './support/failure.ts';

// The scheduler's week on the real pages: two visits booked on the board, one moved by keyboard, one cancelled;
// what raters' calendars and mail boxes get of it is read with programmes of others.
const letters: ParsedMail[] = [];
const smtp = new SMTPServer({
  authOptional: true,
  disabledCommands: ['STARTTLS'],
  onData(stream, _session, done) {
    simpleParser(stream).then(
      (mail) => {
        letters.push(mail);
        done();
      },
      (error: unknown) => done(error as Error),
    );
  },
});
let server: TestServer;
let browser: Browser;
let people: ReturnType<typeof demoPeople>;
let board: Page;
let calendar: string;

beforeAll(async () => {
  await new Promise<void>((resolve) => smtp.listen(0, '127.0.0.1', resolve));
  const smtpUrl = `smtp://127.0.0.1:${(smtp.server.address() as AddressInfo).port}`;
  server = await startServer({ demo: true, env: { SMTP_URL: smtpUrl } });
  browser = await launchBrowser();
  people = demoPeople(browser, server.url);
});
afterAll(async () => {
  await browser?.close();
  await server?.stop();
  await new Promise<void>((resolve) => smtp.close(() => resolve()));
});

const tellsOnFailure = async (work: () => Promise<void>) => {
  try {
    await work();
  } catch (error) {
    if (board) await showFailure({ 'scheduling-board': board });
    throw error;
  }
};
const blocks = (words: string) => board.getByRole('cell').getByRole('button', { name: words });
/** Monday three weeks on, when nothing is booked yet. */
const week = () => {
  const day = new Date(Date.now() + 21 * 86_400_000);
  day.setUTCDate(day.getUTCDate() - ((day.getUTCDay() + 6) % 7));
  return day.toISOString().slice(0, 10);
};
async function events() {
  const text = await (await fetch(calendar)).text();
  return new ICAL.Component(ICAL.parse(text))
    .getAllSubcomponents('vevent')
    .map((each) => new ICAL.Event(each))
    .filter(({ startDate }) => startDate.toJSDate() > new Date(week()));
}
const statusOf = (event: ICAL.Event) => event.component.getFirstPropertyValue('status');
const mailsOf = (words: string) => letters.filter(({ subject }) => subject?.includes(words));
let first: string;
let second: string;

it('gives a rater an address for his calendar, once', async () => {
  const context = await people.open('rater');
  const page = await context.newPage();
  await page.goto('/calendar');
  await page.getByRole('button', { name: 'Make an address' }).click();
  calendar = await page.getByLabel('Address', { exact: true }).inputValue();
  expect((await events()).length).toBe(0);
  await page.reload();
  await page.getByText('Last read').waitFor();
  expect(await page.getByLabel('Address', { exact: true }).count()).toBe(0);
  await context.close();
});

it('books a request by dragging it, and another by its button', () =>
  tellsOnFailure(async () => {
    board = await (await people.open('office', { width: 1280 })).newPage();
    await board.goto(`/board?date=${week()}`);
    const places = board.getByRole('button', { name: /^Place / });
    await places.first().waitFor();
    first = (await places.nth(0).getAttribute('aria-label'))!.replace('Place ', '');
    second = (await places.nth(1).getAttribute('aria-label'))!.replace('Place ', '');
    const card = (await board.getByRole('listitem').filter({ hasText: first }).boundingBox())!;
    const row = board.getByRole('row').filter({ hasText: 'Ines Quillfeather' });
    const cell = (await row.getByRole('cell').nth(1).boundingBox())!;
    await board.mouse.move(card.x + 40, card.y + 14);
    await board.mouse.down();
    await board.mouse.move(card.x + 80, card.y + 40, { steps: 4 });
    await board.mouse.move(cell.x + cell.width / 2, cell.y + cell.height / 2, { steps: 8 });
    await board.mouse.up();
    const dialog = board.getByRole('dialog');
    expect(await dialog.getByLabel('Day').inputValue()).toBe(
      new Date(Date.parse(week()) + 86_400_000).toISOString().slice(0, 10),
    );
    await dialog.getByText('Mind before you go on').waitFor();
    await dialog.getByRole('button', { name: 'Book', exact: true }).click();
    await dialog.waitFor({ state: 'detached' });
    await blocks(first).waitFor();

    await board.getByRole('button', { name: `Place ${second}` }).press('Enter');
    await dialog.getByLabel('Rater').selectOption({ label: 'Ines Quillfeather' });
    await dialog.getByLabel('Day').fill(week());
    await dialog.getByLabel('Start').fill('09:00');
    await dialog.getByLabel('End').fill('12:00');
    await dialog.getByRole('button', { name: 'Book', exact: true }).click();
    await dialog.waitFor({ state: 'detached' });
    await blocks(second).waitFor();
    await expect.poll(() => mailsOf('visit booked').length).toBeGreaterThanOrEqual(4);
    expect((await events()).map(statusOf)).toEqual(['CONFIRMED', 'CONFIRMED']);
  }));

it('moves one by the arrow keys', () =>
  tellsOnFailure(async () => {
    await blocks(second).focus();
    await board.keyboard.press('ArrowRight');
    const dialog = board.getByRole('dialog');
    await dialog.getByRole('button', { name: 'Move', exact: true }).waitFor();
    await dialog
      .getByLabel('Day')
      .fill(new Date(Date.parse(week()) + 2 * 86_400_000).toISOString().slice(0, 10));
    await board.keyboard.press('Enter');
    await dialog.waitFor({ state: 'detached' });
    const moved = (await events()).find(({ summary }) => summary.includes(second))!;
    expect(moved.sequence).toBe(1);
    expect(moved.startDate.zone).toBe(ICAL.Timezone.utcTimezone);
    expect(moved.startDate.toString().slice(0, 10)).toBe(
      new Date(Date.parse(week()) + 2 * 86_400_000).toISOString().slice(0, 10),
    );
    await expect.poll(() => mailsOf(`${second}: final visit moved`).length).toBeGreaterThanOrEqual(2);
  }));

it('cancels one, which calendars and mail boxes hear of and which waits again', () =>
  tellsOnFailure(async () => {
    await blocks(first).click();
    const dialog = board.getByRole('dialog');
    await dialog.getByRole('button', { name: 'Cancel the visit' }).click();
    await dialog.getByLabel('Cause').fill('The site flooded');
    await dialog.getByRole('button', { name: 'Cancel the visit' }).click();
    await board.getByRole('button', { name: `Place ${first}` }).waitFor();
    const gone = (await events()).find(({ summary }) => summary.includes(first))!;
    expect([statusOf(gone), gone.sequence]).toEqual(['CANCELLED', 1]);
    await expect.poll(() => mailsOf(`${first}: final visit cancelled`).length).toBeGreaterThanOrEqual(2);
    expect(mailsOf(`${first}: final visit cancelled`)[0]?.text).toContain('The site flooded');
    const sent = letters.map(({ messageId }) => messageId);
    expect(new Set(sent).size).toBe(sent.length);
    const told = mailsOf('final visit').map(
      ({ to, subject }) => `${Array.isArray(to) ? '' : to?.text} ${subject}`,
    );
    expect(new Set(told).size).toBe(told.length);
  }));
