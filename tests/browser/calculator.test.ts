import type { BrowserContext, Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { testDefinitions, testKeys } from '@countercheck/measurement';
import { fill } from './support/forms.ts';
import { barriers, overhang, settled, tabTo } from './support/health.ts';
import { demoService, onPage } from './support/service.ts';

const service = demoService();

const onCalculator = (
  work: (page: Page, context: BrowserContext) => Promise<void>,
  width = 1280,
  address = '/calculator',
) =>
  onPage(service, { as: 'rater', address, width }, async (page, troubles) => {
    await work(page, page.context());
    expect(troubles).toEqual([]);
  });

const result = (page: Page) => page.getByRole('region', { name: 'Result' });
const drawing = (page: Page) => page.getByRole('region', { name: 'Points and fit' });
const example = (page: Page) => page.getByRole('button', { name: 'Fill in an example' }).click();
const onAxes = (page: Page) =>
  drawing(page)
    .getByRole('group', { name: /^Flow against pressure/ })
    .getByRole('img');

it('shows every test’s example with its result and its working', () =>
  onCalculator(async (page) => {
    for (const key of testKeys) {
      await fill(page, { Test: testDefinitions[key].title });
      await example(page);
      const [number] = await result(page)
        .getByRole('button', { name: /working of/ })
        .all();
      await number!.click();
      expect(await number!.getAttribute('aria-expanded')).toBe('true');
      await result(page)
        .getByRole('group', { name: /^Working of/ })
        .first()
        .waitFor();
    }
  }));

it('draws the fit so that it can be read without eyes and without a mouse', () =>
  onCalculator(async (page) => {
    await example(page);
    await drawing(page)
      .getByText(/The line has the exponent 0\.\d+/)
      .waitFor();
    const points = await onAxes(page).all();
    expect(points).toHaveLength(6);
    const words = await points[0]!.getAttribute('aria-label');
    expect(words).toMatch(/^Point 1: 1465 cfm at 60\.0 Pa, \d\.\d % (above|below) the line/);
    // One stop of the Tab key, then from point to point.
    expect(await tabTo(page, /^Point 1: \d/)).toBe(words);
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('End');
    const focused = await page.evaluate<string | null>('document.activeElement.getAttribute("aria-label")');
    expect(focused).toMatch(/^Point 6: /);
    // The same figures stand in the table beside it.
    const table = drawing(page).getByRole('table', { name: 'The points of the drawing' });
    expect(await table.getByRole('row').count()).toBe(7);
    expect(await barriers(page)).toEqual([]);
  }));

it('says what is wrong with a point', () =>
  onCalculator(async (page) => {
    await example(page);
    await page
      .getByRole('group', { name: 'Point 3' })
      .getByLabel(/^Fan flow/)
      .fill('1655');
    await drawing(page).getByRole('listitem').filter({ hasText: 'Point 3' }).first().waitFor();
    await drawing(page).getByRole('cell', { name: 'Look again' }).waitFor();
    expect(await onAxes(page).nth(2).getAttribute('aria-label')).toMatch(/above the line/);
  }));

it('passes the inputs on by a link and says when the link is broken', () =>
  onCalculator(async (page, context) => {
    await fill(page, { Test: 'Bath exhaust' });
    await example(page);
    await fill(page.getByRole('region', { name: 'Instrument, made up' }), { 'Accuracy, % of reading': '7' });
    await page.getByRole('button', { name: 'Make a link' }).click();
    const link = await page.getByLabel('Link', { exact: true }).inputValue();
    expect(link).toMatch(/\/calculator#1\.[\w-]+$/);
    const other = await context.newPage();
    await other.goto(link);
    await settled(other);
    await expect.poll(() => other.getByLabel('Test', { exact: true }).inputValue()).toBe('bath-exhaust');
    expect(await other.getByLabel(/^Accuracy, % of reading/).inputValue()).toBe('7');
    expect(await result(other).innerText()).toBe(await result(page).innerText());
    await other.goto(`${link.slice(0, -9)}#`.replace(/#$/, ''));
    await other.reload();
    await other.getByText('The link cannot be read').waitFor();
  }));

it('converts between the systems of units both ways', () =>
  onCalculator(async (page) => {
    const units = page.getByRole('region', { name: 'Units' });
    await fill(units, { Quantity: 'Static pressure', 'in. w.c.': '0.5' });
    expect(Number(await units.getByLabel('Pa').inputValue())).toBeCloseTo(124.544, 2);
    await fill(units, { Pa: '25' });
    expect(Number(await units.getByLabel('in. w.c.').inputValue())).toBeCloseTo(0.10037, 5);
  }));

it('fits a phone, with the drawing', () =>
  onCalculator(async (page) => {
    await example(page);
    await onAxes(page).first().waitFor();
    expect(await overhang(page)).toBeLessThanOrEqual(0);
    expect(await barriers(page)).toEqual([]);
  }, 390));
