import type { Locator, Page } from 'playwright-core';

/** The dialog that is open; its title is its name. */
export const dialog = (page: Page, name?: string | RegExp): Locator =>
  page.getByRole('dialog', name === undefined ? {} : { name });

/** Fills fields by the words beside them. */
export async function fill(within: Locator | Page, values: Record<string, string>): Promise<void> {
  for (const [label, value] of Object.entries(values)) {
    // A unit or a mark may follow the words, but no other words may come before them.
    const field = within.getByLabel(new RegExp(`^${literally(label)}`)).first();
    const tag = await field.evaluate((element) => element.tagName);
    if (tag === 'SELECT') await field.selectOption({ label: value });
    else await field.fill(value);
  }
}

/** Types part of a name and takes what is found. */
export async function search(within: Locator | Page, label: string, words: string): Promise<void> {
  // Its list of options carries the same label.
  const field = within.getByLabel(label).and(within.locator('input'));
  await field.fill(words);
  const page = 'page' in within ? within.page() : within;
  await page.getByRole('option', { name: new RegExp(words) }).click();
}

/** The words beside a field that was refused, through the link that a screen reader follows. */
export async function problemOf(within: Locator | Page, label: string | RegExp): Promise<string> {
  const field = within.getByLabel(label).first();
  await field.and(within.locator('[aria-invalid="true"]')).waitFor();
  return field.evaluate((element) =>
    (element.getAttribute('aria-describedby') ?? '')
      .split(' ')
      .map((id: string) => element.ownerDocument.getElementById(id)?.textContent ?? '')
      .join(' ')
      .trim(),
  );
}

/** Waits until the page says so; in that spelling, since "no visit booked" says something else. */
export const told = (page: Page, words: string | RegExp): Promise<void> =>
  page
    .getByText(words instanceof RegExp ? words : new RegExp(literally(words)))
    .first()
    .waitFor();

const literally = (words: string) => words.replaceAll(/[.*+?^${}()|[\]\\]/g, '\\$&');
