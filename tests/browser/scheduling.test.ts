import ICAL from 'ical.js';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Builder, VisitRequest, Visit, WeekPlan } from '@countercheck/contracts';
import { launchBrowser } from '../support/browser.ts';
import { demoDatabase, type FreshDatabase } from '../support/database.ts';
import { startProcess } from '../support/server.ts';
import { demoPeople } from './support/demo.ts';
import { showFailure } from './support/failure.ts';
import { openMailbox, recipientOf, type Mailbox } from './support/mailbox.ts';

// The scheduler's week on the real pages: planned as a whole, two visits changed by hand, one cancelled at noon of the
// third day and planned again. What a rater's calendar and the mail boxes get of it is read with programmes of others.
const names = ['Ines Quillfeather', 'Tobiah Marrowfield'] as const;
const [ines] = names;
/** Monday three weeks on, when nothing is booked yet, and the days after it. */
const monday = (() => {
  const day = new Date(Date.now() + 21 * 86_400_000);
  day.setUTCDate(day.getUTCDate() - ((day.getUTCDay() + 6) % 7));
  return day;
})();
const day = (later: number) => new Date(monday.getTime() + later * 86_400_000).toISOString().slice(0, 10);
const [wednesday, friday] = [day(2), day(4)];

let mailbox: Mailbox;
let database: FreshDatabase;
let server: Awaited<ReturnType<typeof startProcess>>;
let browser: Browser;
let people: ReturnType<typeof demoPeople>;
let page: Page;
let calendar: string;
let plan: WeekPlan;

async function start(env: Record<string, string> = {}): Promise<void> {
  server = await startProcess(database, { SMTP_URL: mailbox.url, ...env });
  people = demoPeople(browser, server.url);
}
beforeAll(async () => {
  mailbox = await openMailbox();
  [database, browser] = await Promise.all([demoDatabase(), launchBrowser()]);
  await start();
});
afterAll(async () => {
  await browser?.close();
  await server?.stop();
  await database?.drop();
  await mailbox?.close();
});

const shown = (work: () => Promise<void>) => async () => {
  try {
    await work();
  } catch (error) {
    if (page) await showFailure({ scheduling: page });
    throw error;
  }
};
const button = (name: string | RegExp) => page.getByRole('button', { name, exact: true });
const blocks = (words: string) => page.getByRole('cell').getByRole('button', { name: words });
const stopsOf = ({ days }: WeekPlan) =>
  days.flatMap(({ rater, stops }) => stops.map((stop) => ({ ...stop, rater: rater.name })));

/** The visits of the week, as the office has them. */
async function visits(): Promise<Visit[]> {
  const { items } = await people.ask<{ items: Visit[] }>(
    'office',
    'GET',
    `/visits?from=${day(0)}&to=${day(6)}&pageSize=100`,
  );
  return items;
}
async function feed() {
  const answer = await fetch(new URL(new URL(calendar).pathname, server.url));
  const events = new ICAL.Component(ICAL.parse(await answer.text())).getAllSubcomponents('vevent');
  return events
    .map((each) => new ICAL.Event(each))
    .filter(({ startDate }) => startDate.toJSDate() >= new Date(day(0)))
    .map((event) => ({
      visit: event.uid.replace('@countercheck', ''),
      status: event.component.getFirstPropertyValue('status'),
      sequence: event.sequence,
      from: event.startDate.toJSDate().toISOString(),
      to: event.endDate.toJSDate().toISOString(),
      utc: [event.startDate, event.endDate].every((time) => time.zone === ICAL.Timezone.utcTimezone),
    }));
}
const eventOf = async (visit: string) => (await feed()).find((event) => event.visit === visit);

/** The calendar shows what the office has: every visit once, in UTC, what fell away or went to another as cancelled. */
async function calendarIsRight(): Promise<void> {
  const events = await feed();
  const own = (await visits()).filter(({ rater }) => rater.name === ines);
  expect(new Set(events.map(({ visit }) => visit)).size).toBe(events.length);
  expect(events.every(({ utc }) => utc)).toBe(true);
  for (const visit of own)
    expect(events, visit.house.address).toContainEqual(
      expect.objectContaining({
        ...{ visit: visit.id, from: visit.startsAt, to: visit.endsAt },
        status: visit.state === 'cancelled' ? 'CANCELLED' : 'CONFIRMED',
      }),
    );
  const others = events.filter((event) => !own.some(({ id }) => id === event.visit));
  expect(others.every(({ status }) => status === 'CANCELLED')).toBe(true);
}

interface Told {
  action: string;
  recordId: string;
  before: { raterId?: string; startsAt?: string } | null;
  after: { raterId?: string; startsAt?: string };
}
const news: Record<string, string> = {
  ...{ 'visit booked': 'booked', 'visit moved': 'moved', 'visit cancelled': 'cancelled' },
};
const kinds: Record<string, string> = {
  ...{ rough: 'rough-in visit', final: 'final visit', reinspection: 'reinspection' },
};

/** Everybody who has to know got one letter for each deed of the log, and nobody another one. */
async function mailIsRight(): Promise<void> {
  const all = await visits();
  const { items: users } = await people.ask<{ items: { id: string; email: string }[] }>(
    'administrator',
    'GET',
    '/users?pageSize=100',
  );
  const wanted: string[] = [];
  const houses = new Map(all.map(({ house }) => [house.id, house]));
  for (const house of houses.values()) {
    const { contacts } = await people.ask<{
      contacts: { email: string | null; notify: boolean }[];
    }>('office', 'GET', `/builders/${(house.builder as Pick<Builder, 'id'>).id}`);
    const { items: events } = await people.ask<{ items: Told[] }>(
      'office',
      'GET',
      `/houses/${house.id}/events?pageSize=100`,
    );
    for (const event of events) {
      const visit = all.find(({ id }) => id === event.recordId);
      if (!visit || !(event.action in news)) continue;
      // Who comes, and who came before; a visit that is cancelled is told to whoever had it.
      const now = event.after.raterId ?? visit.rater.id;
      const told = [...new Set([now, event.before?.raterId ?? now])];
      const moved = event.before?.startsAt === event.after.startsAt ? 'given to another rater' : 'moved';
      const words = event.action === 'visit moved' ? moved : news[event.action];
      const readers = [
        ...told.map((id) => users.find((user) => user.id === id)!.email),
        ...contacts.filter(({ notify, email }) => notify && email).map(({ email }) => email!),
      ];
      for (const reader of readers) wanted.push(`${reader} ${house.address}: ${kinds[visit.kind]} ${words}`);
    }
  }
  const addresses = [...houses.values()].map(({ address }) => address);
  const received = () =>
    mailbox.letters
      .filter(({ subject }) => addresses.some((address) => subject?.startsWith(`${address}: `)))
      .map((mail) => `${recipientOf(mail)} ${mail.subject}`);
  await expect.poll(() => received().length, { timeout: 20_000 }).toBeGreaterThanOrEqual(wanted.length);
  expect(received().toSorted()).toEqual(wanted.toSorted());
  const ids = mailbox.letters.map(({ messageId }) => messageId);
  expect(new Set(ids).size).toBe(ids.length);
}

async function ended(): Promise<WeekPlan> {
  await page.getByRole('heading', { name: 'In short' }).waitFor({ timeout: 60_000 });
  return people.ask<WeekPlan>('office', 'GET', new URL(page.url()).pathname);
}

it('gives a rater an address for his calendar, once', async () => {
  const context = await people.open('rater');
  const own = await context.newPage();
  await own.goto('/calendar');
  await own.getByRole('button', { name: 'Make an address' }).click();
  calendar = await own.getByLabel('Address', { exact: true }).inputValue();
  expect(await feed()).toEqual([]);
  await own.reload();
  await own.getByText('Last read').waitFor();
  expect(await own.getByLabel('Address', { exact: true }).count()).toBe(0);
  await context.close();
});

it(
  'plans the week, and books what is accepted: one, all but one that is set aside',
  shown(async () => {
    const { items } = await people.ask<{ items: VisitRequest[] }>(
      'office',
      'GET',
      '/visit-requests?state=open&pageSize=100',
    );
    for (const { id } of items)
      await people.ask('office', 'PATCH', `/visit-requests/${id}`, {
        ...{ earliestOn: day(0), deadlineOn: day(4), deadlineWhy: 'agreed' },
      });
    page = await (await people.open('office')).newPage();
    await page.goto('/plans');
    await button('Plan the week').click();
    const dialog = page.getByRole('dialog');
    await dialog.getByLabel('First day').fill(day(0));
    await dialog.getByLabel('Last day').fill(friday);
    await dialog.getByLabel('Seconds to search').fill('2');
    const raters = dialog.getByRole('group', { name: 'Raters' }).getByRole('checkbox');
    for (const rater of await raters.all()) await rater.uncheck();
    for (const name of names) await dialog.getByLabel(name, { exact: true }).check();
    await dialog.getByRole('button', { name: 'Plan', exact: true }).click();
    await page.getByRole('progressbar').waitFor();
    await button('Cancel').waitFor();
    plan = await ended();
    const proposed = stopsOf(plan);
    expect(proposed.length).toBeGreaterThanOrEqual(6);
    expect(await visits()).toEqual([]);

    const own = proposed.filter(({ rater }) => rater === ines);
    expect(own.length).toBeGreaterThanOrEqual(4);
    const [one, aside] = [own[0]!, proposed.find(({ rater }) => rater !== ines) ?? own[1]!];
    await button(`Accept ${one.house.address}`).click();
    await button(`Accept ${one.house.address}`).waitFor({ state: 'detached' });
    expect(await visits()).toHaveLength(1);
    await button(`Set ${aside.house.address} aside`).click();
    await button(`Set ${aside.house.address} aside`).waitFor({ state: 'detached' });
    await button(`Accept all ${proposed.length - 2}`).click();
    await button(/^Accept all/).waitFor({ state: 'detached' });

    const booked = await visits();
    const places = (list: { house: { id: string }; startsAt: string; rater: string }[]) =>
      list.map(({ house, startsAt, rater }) => `${rater} ${startsAt} ${house.id}`).toSorted();
    expect(places(booked.map((visit) => ({ ...visit, rater: visit.rater.name })))).toEqual(
      places(proposed.filter(({ id }) => id !== aside.id)),
    );
    await calendarIsRight();
    expect((await feed()).every(({ sequence }) => sequence === 0)).toBe(true);
    await mailIsRight();
  }),
);

it(
  'changes one by dragging it and another by the keyboard',
  shown(async () => {
    await page.goto(`/board?date=${day(0)}`);
    const own = (await visits()).filter(({ rater }) => rater.name === ines);
    const [dragged, stepped] = [own[0]!, own[1]!];
    const block = blocks(dragged.house.address);
    await block.waitFor();
    const row = page.getByRole('row').filter({ hasText: ines });
    const from = (await block.boundingBox())!;
    const cell = (await row.getByRole('cell').nth(4).boundingBox())!;
    await page.mouse.move(from.x + 20, from.y + 14);
    await page.mouse.down();
    await page.mouse.move(from.x + 60, from.y + 20, { steps: 4 });
    await page.mouse.move(cell.x + cell.width / 2, cell.y + cell.height / 2, { steps: 8 });
    await page.mouse.up();
    const dialog = page.getByRole('dialog');
    expect(await dialog.getByLabel('Day').inputValue()).toBe(friday);
    await dialog.getByRole('button', { name: 'Move', exact: true }).click();
    await dialog.waitFor({ state: 'detached' });

    await blocks(stepped.house.address).focus();
    await page.keyboard.press('ArrowRight');
    await dialog.getByRole('button', { name: 'Move', exact: true }).waitFor();
    await dialog.getByLabel('Day').fill(friday);
    await dialog.getByLabel('Start').fill('05:00');
    await dialog.getByLabel('End').fill('07:00');
    await dialog.getByText(/works from/).waitFor();
    await page.keyboard.press('Enter');
    await dialog.waitFor({ state: 'detached' });

    for (const { id } of [dragged, stepped]) expect((await eventOf(id))?.sequence).toBe(1);
    await calendarIsRight();
    await mailIsRight();
  }),
);

it(
  'plans again with few moves when one is cancelled at noon',
  shown(async () => {
    await page.context().close();
    await server.stop();
    const noon = `${wednesday}T18:00:00Z`;
    const clock = fileURLToPath(new URL('../support/clock.mjs', import.meta.url));
    await start({ NODE_OPTIONS: `--import ${clock}`, CLOCK_AT: noon });
    page = await (await people.open('office')).newPage();
    await page.clock.setFixedTime(noon);
    const before = await visits();
    const gone = before.find(({ startsAt, rater }) => startsAt > noon && rater.name === ines)!;
    await page.goto(`/board?date=${day(0)}`);
    await blocks(gone.house.address).click();
    const dialog = page.getByRole('dialog');
    await dialog.getByRole('button', { name: 'Cancel the visit' }).click();
    await dialog.getByLabel('Cause').fill('The site flooded');
    await dialog.getByRole('button', { name: 'Cancel the visit' }).click();
    await button(`Place ${gone.house.address}`).waitFor();
    expect(await eventOf(gone.id)).toMatchObject({ status: 'CANCELLED' });

    await page.goto('/plans');
    await button('Plan the week').click();
    await dialog.getByLabel('Plan again what is booked from now on').check();
    expect(await dialog.getByLabel('First day').inputValue()).toBe(wednesday);
    await dialog.getByLabel('Last day').fill(friday);
    await dialog.getByLabel('Seconds to search').fill('2');
    await dialog.getByRole('button', { name: 'Plan', exact: true }).click();
    const again = await ended();
    const stops = stopsOf(again);
    const moved = stops.filter((stop) => stop.before !== null);
    expect(moved.length).toBeLessThanOrEqual(1);
    // What has begun, and nearly everything else, stays.
    const later = before.filter(({ startsAt, id }) => startsAt > noon && id !== gone.id);
    expect(stops.filter(({ state }) => state === 'kept').length).toBeGreaterThanOrEqual(later.length - 1);
    expect(stops.find(({ house }) => house.id === gone.house.id)).toMatchObject({
      state: 'proposed',
      before: null,
    });
    await button(/^Accept all/).click();
    await button(/^Accept all/).waitFor({ state: 'detached' });

    const after = await visits();
    const same = later.filter((visit) =>
      after.some(
        ({ id, startsAt, rater }) =>
          id === visit.id && startsAt === visit.startsAt && rater.id === visit.rater.id,
      ),
    );
    expect(same.length).toBe(later.length - moved.length);
    expect(after.filter(({ house, state }) => house.id === gone.house.id && state === 'booked')).toHaveLength(
      1,
    );
    await calendarIsRight();
    await mailIsRight();
    const cause = mailbox.letters.find(({ subject }) => subject?.endsWith('cancelled'));
    expect(cause?.text).toContain('The site flooded');
  }),
);
