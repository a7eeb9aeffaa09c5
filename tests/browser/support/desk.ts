import { spawnSync } from 'node:child_process';
import type { Page } from 'playwright-core';
import { root } from '@countercheck/host/places';
import { dialog, fill, told } from './forms.ts';

/** A file with nothing wrong, by single keys from taking it to ending it. Gives the keys that it took. */
export async function reviewByKeyboard(page: Page): Promise<{ keys: number; steps: number }> {
  await page.getByRole('button', { name: 'Take this review' }).waitFor();
  let keys = 0;
  const press = async (key: string) => {
    await page.keyboard.press(key);
    keys += 1;
  };
  await press('t');
  await page.getByRole('button', { name: 'In order', exact: true }).waitFor();
  const progress = page.getByRole('status').filter({ hasText: /^Step \d+ of \d+/ });
  const steps = Number(/of (\d+)/.exec(await progress.innerText())![1]);
  for (let i = 0; i < steps; i += 1) {
    await press('o');
    await progress.filter({ hasText: `${i + 1} seen` }).waitFor();
  }
  await press('e');
  const ending = dialog(page, 'End the review?');
  await ending.getByText(`${steps} of ${steps} steps were looked at`).waitFor();
  // In the dialog the letters are letters again.
  await ending.getByLabel('Note').focus();
  await page.keyboard.type('oke');
  if ((await ending.getByLabel('Note').inputValue()) !== 'oke') throw new Error('A letter did something.');
  await ending.getByLabel('Note').fill('');
  await ending.getByRole('button', { name: 'End it' }).focus();
  await press('Enter');
  await told(page, 'The file is clean.');
  return { keys, steps };
}

/** Fills the booking form with a rater, whose line also says where he is that day, and books. */
export async function bookRater(
  page: Page,
  rater: string,
  at: { day: string; start: string; end: string },
): Promise<void> {
  const form = dialog(page);
  const line = form.getByLabel('Rater').locator('option', { hasText: rater });
  await line.waitFor({ state: 'attached' });
  const label = (await line.innerText()).trim();
  await fill(form, { Rater: label, Day: at.day, Start: at.start, End: at.end });
  await form.getByRole('button', { name: 'Book', exact: true }).click();
}

/** The command of the project, with nothing of the service around it: what it says and how it ends. */
export function repeatDraw(path: string): { said: string; status: number | null } {
  const { PATH, HOME } = process.env;
  const { stdout, stderr, status } = spawnSync('npm', ['run', '--silent', 'repeat-draw', '--', path], {
    ...{ cwd: root, encoding: 'utf8', env: { PATH, HOME } },
  });
  return { said: stdout + stderr, status };
}
