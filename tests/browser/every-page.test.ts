import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { barriers, overhang, settled, tabTo } from './support/health.ts';
import { entranceRows, pageRows, routeTable, type PageRow } from './support/pages.ts';
import { demoService, onPage } from './support/service.ts';

const service = demoService();
const addresses = new Map<PageRow, string>();

async function addressOf(row: PageRow): Promise<string> {
  const address = addresses.get(row) ?? (await row.address?.(service.people.ask)) ?? row.path;
  addresses.set(row, address);
  return address;
}

const onRow = async (
  row: PageRow,
  look: { width?: number; dark?: boolean },
  work: (page: Page, troubles: readonly string[]) => Promise<void>,
) => onPage(service, { as: row.as, address: await addressOf(row), ...look }, work);

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
    onRow(row, { width }, async (page, troubles) => {
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
  '/day',
  '/unsent',
  '/visits/$id',
  '/review/$id',
  '/houses/$id',
  '/my-houses/$id',
  '/figures/$token',
  '/sign-in',
];
it.each(all.filter(({ path }) => dark.includes(path)))('$path is readable in the dark', (row) =>
  onRow(row, { width: 390, dark: true }, async (page) => expect(await barriers(page)).toEqual([])),
);

it('gives the focus back to what opened a dialog', async () => {
  const context = await service.people.open('office');
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
