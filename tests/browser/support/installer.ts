import type { Page } from 'playwright-core';
import { fill, told } from './forms.ts';

/** Enters figures part by part and signs them. */
export async function signFigures(
  page: Page,
  name: string,
  figures: Record<string, Record<string, string>>,
): Promise<void> {
  await enterFigures(page, figures);
  await fill(page, { 'Your full name': name });
  await page.getByLabel(/^I measured these figures/).check();
  await page.getByRole('button', { name: 'Sign the figures' }).click();
}

export async function enterFigures(
  page: Page,
  figures: Record<string, Record<string, string>>,
): Promise<void> {
  for (const [part, values] of Object.entries(figures))
    await fill(page.getByRole('region', { name: part, exact: true }), values);
}

export async function waitForSigned(page: Page, revision: number): Promise<void> {
  await told(page, 'Signed. The rating company has your figures.');
  await page.getByRole('heading', { name: `Signed figures, revision ${revision}` }).waitFor();
}
