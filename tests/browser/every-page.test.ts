import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launchBrowser } from '../support/browser.ts';
import { startServer, type TestServer } from '../support/server.ts';
import { demoPeople } from './support/demo.ts';
import { showFailure } from './support/failure.ts';
import { barriers, listen, overhang, settled, tabTo } from './support/health.ts';
import { entranceRows, pageRows, routeTable, type PageRow } from './support/pages.ts';

let server: TestServer;
let browser: Browser;
let people: ReturnType<typeof demoPeople>;
const addresses = new Map<PageRow, string>();

beforeAll(async () => {
  server = await startServer({ demo: true });
  browser = await launchBrowser();
  people = demoPeople(browser, server.url);
});
afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

async function addressOf(row: PageRow): Promise<string> {
  const address = addresses.get(row) ?? (await row.address?.(people.ask)) ?? row.path;
  addresses.set(row, address);
  return address;
}

async function onPage(
  row: PageRow,
  look: { width?: number; dark?: boolean },
  work: (page: Page, troubles: string[]) => Promise<void>,
): Promise<void> {
  const address = await addressOf(row);
  const context = await people.open(row.as, look);
  const page = await context.newPage();
  const troubles = listen(page);
  try {
    await page.goto(address);
    await settled(page);
    await work(page, troubles);
  } catch (error) {
    await showFailure({ [`${row.as}${row.path}-${look.width}`.replaceAll(/[^\w-]+/g, '-')]: page });
    throw error;
  } finally {
    await context.close();
  }
}

const all = [...pageRows, ...entranceRows];

it('knows every page of the route table', async () => {
  expect(pageRows.map(({ path }) => path).sort()).toEqual((await routeTable()).sort());
});

/** From the top of the page to what one comes for, without a mouse. */
async function byKeyboard(page: Page, row: PageRow): Promise<void> {
  if (row.as !== 'nobody') {
    expect(await tabTo(page, 'Skip to the page', 1)).not.toBeNull();
    await page.keyboard.press('Enter');
  }
  expect(await tabTo(page, row.main)).not.toBeNull();
}

describe.each([1280, 390])('at %i pixels', (width) => {
  it.each(all)('$path serves the $as', (row) =>
    onPage(row, { width }, async (page, troubles) => {
      expect(await page.title()).toMatch(/^.+ – Countercheck$/);
      expect(await page.locator('h1').count()).toBe(1);
      expect(await overhang(page)).toBeLessThanOrEqual(0);
      expect(await barriers(page)).toEqual([]);
      expect(troubles.filter((trouble) => !row.expected?.test(trouble))).toEqual([]);
      if (width === 1280) await byKeyboard(page, row);
    }),
  );
});

const dark = [
  '/',
  '/visits/$id',
  '/review/$id',
  '/houses/$id',
  '/my-houses/$id',
  '/figures/$token',
  '/sign-in',
];
it.each(all.filter(({ path }) => dark.includes(path)))('$path is readable in the dark', (row) =>
  onPage(row, { width: 390, dark: true }, async (page) => expect(await barriers(page)).toEqual([])),
);

it('gives the focus back to what opened a dialog', async () => {
  const context = await people.open('office');
  const page = await context.newPage();
  await page.goto('/builders');
  await settled(page);
  expect(await tabTo(page, 'Register a builder')).not.toBeNull();
  await page.keyboard.press('Enter');
  const dialog = page.getByRole('dialog', { name: 'Register a builder' });
  await dialog.waitFor();
  await page.keyboard.press('Escape');
  await dialog.waitFor({ state: 'detached' });
  const focused = () => page.evaluate<string>('document.activeElement.textContent');
  await expect.poll(focused).toBe('Register a builder');
  await context.close();
});
