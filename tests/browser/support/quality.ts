import type { Page } from 'playwright-core';
import { dialog, fill, told } from './forms.ts';

export async function openFile(page: Page, address: string): Promise<void> {
  await page.goto('/review');
  await page.getByRole('link', { name: address }).click();
  await page.getByRole('heading', { level: 1, name: address }).waitFor();
}

/** Notes a finding beside an item. */
export async function noteFinding(page: Page, item: RegExp, text: string, severity: string): Promise<void> {
  await page.locator('summary').filter({ hasText: item }).first().click();
  await page
    .getByRole('button', { name: /^Note a finding: / })
    .filter({ visible: true })
    .first()
    .click();
  await fill(page.getByRole('group', { name: 'Finding 1' }), { Severity: severity, 'What was found': text });
}

export async function returnFile(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Return the file' }).click();
  await dialog(page, 'Return the file?').getByRole('button', { name: 'Return it' }).click();
  await told(page, 'The file is returned with its findings.');
}

export async function release(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Release and seal' }).click();
  const asked = dialog(page, 'Release and seal this file?');
  await asked.getByRole('button', { name: 'Release and seal' }).click();
  await told(page, 'The file is released and sealed');
}
