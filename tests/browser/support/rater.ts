import type { Locator, Page } from 'playwright-core';
import { dialog, fill, told } from './forms.ts';

export interface Entered {
  instrument: string;
  fields?: Record<string, string>;
  choices?: string[];
  /** terminals, inlets or points, each by its fields; radio choices by their words */
  rows?: { fields: Record<string, string>; choices?: string[] }[];
}

/** One item of the sheet, by its title and the part of the house. */
export function item(page: Page, title: string, part?: string): Locator {
  const items = page.locator('details.item').filter({ has: page.locator('strong', { hasText: title }) });
  return part ? items.filter({ has: page.locator('summary', { hasText: part }) }) : items;
}

/** Unfolds every set-up's items. */
export async function openGroups(page: Page): Promise<void> {
  const closed = page.locator('details.item-group:not([open])');
  await page.locator('details.item-group').first().waitFor();
  while ((await closed.count()) > 0) await closed.first().locator('> summary').click();
}

export async function openItem(page: Page, title: string, part?: string): Promise<Locator> {
  await openGroups(page);
  const found = item(page, title, part);
  if ((await found.getAttribute('open')) === null) await found.locator('> summary').click();
  return found;
}

/** The form of a test inside an item; an item with several tests begins each by a button. */
export async function formOf(within: Locator, test: string): Promise<Locator> {
  const section = within.getByRole('region', { name: new RegExp(`^${test},`) });
  const form = section.getByRole('form', { name: /^(Reading|Correct): / });
  const begin = section.getByRole('button', { name: /^(Begin this test|Read again)/ });
  await form.or(begin).first().waitFor();
  if (await begin.isVisible()) await begin.click();
  return form;
}

/** Types a reading as it is read, ticking what was set up; records nothing yet. */
export async function type(form: Locator, entered: Entered): Promise<void> {
  for (const box of await form.getByRole('checkbox').all()) await box.check();
  await fill(form, { Instrument: entered.instrument, ...entered.fields });
  for (const choice of entered.choices ?? []) await form.getByLabel(choice).check();
  for (const [i, row] of (entered.rows ?? []).entries()) {
    if (i > 0)
      await form
        .locator('.reading-rows')
        .getByRole('button', { name: /^(Add|Another)/ })
        .click();
    const group = form.locator('.reading-row').nth(i);
    await fill(group, row.fields);
    for (const choice of row.choices ?? []) await group.getByLabel(choice).check();
  }
}

/** Types a static pressure into its form. */
export async function typeStatic(page: Page, title: string, pressure: string): Promise<Locator> {
  const form = await formOf(await openItem(page, title), title);
  for (const box of await form.getByRole('checkbox').all()) await box.check();
  await form.getByLabel(/^Instrument/).selectOption({ index: 1 });
  await form
    .getByLabel(/^Pressure/)
    .first()
    .fill(pressure);
  return form;
}

export const preview = (form: Locator): Locator => form.getByRole('region', { name: 'Result so far' });
export const reason = (within: Locator): Locator => within.locator('.item-reason');

export async function recordReading(page: Page, form: Locator): Promise<void> {
  await form.getByRole('button', { name: /^Record the/ }).click();
  await form.waitFor({ state: 'detached' });
}

/** Opens an item, reads its test, records it, and gives the words of the verdict. */
export async function read(
  page: Page,
  at: { title: string; part?: string; test?: string },
  entered: Entered,
): Promise<string> {
  const opened = await openItem(page, at.title, at.part);
  const form = await formOf(opened, at.test ?? at.title);
  await type(form, entered);
  await recordReading(page, form);
  return reason(opened).innerText();
}

export async function addPhoto(page: Page, within: Locator, shows: string, photo: Buffer): Promise<void> {
  await within.getByLabel('What the photo shows').fill(shows);
  const chooser = page.waitForEvent('filechooser');
  await within.getByRole('button', { name: 'Add a photo' }).click();
  await (await chooser).setFiles({ name: 'photo.png', mimeType: 'image/png', buffer: photo });
  await within.getByRole('img', { name: shows }).waitFor();
}

export async function submitVisit(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Submit the visit' }).click();
  await dialog(page, 'Submit the visit?').getByRole('button', { name: 'Submit', exact: true }).click();
  await told(page, 'The visit is submitted.');
  await allSent(page);
}

/** Waits until the service has everything that was entered on this phone. */
export const allSent = (page: Page): Promise<void> =>
  page.locator('.phone-status').getByText('Everything is sent').waitFor();
