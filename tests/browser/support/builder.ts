import type { Page } from 'playwright-core';
import { dialog, fill, told } from './forms.ts';

/** Says what was corrected, with a photo of it. */
export async function recordCorrection(page: Page, text: string, photo: Buffer): Promise<void> {
  await fill(page, { 'What was corrected': text });
  const chooser = page.waitForEvent('filechooser');
  await page.getByRole('button', { name: 'Photo' }).click();
  await (await chooser).setFiles({ name: 'sealed.png', mimeType: 'image/png', buffer: photo });
  await page.getByRole('button', { name: 'Record the correction' }).click();
  await told(page, 'The correction is recorded.');
}

export async function askReinspection(page: Page, note: string): Promise<void> {
  await page.getByRole('button', { name: 'Ask for a reinspection' }).click();
  const form = dialog(page, /^Reinspection of/);
  await fill(form, { 'Note for the office': note });
  await form.getByRole('button', { name: 'Ask for the reinspection' }).click();
  await told(page, 'The office will book the reinspection.');
}
