import { expect } from 'vitest';
import { dialog, fill, told } from '../support/forms.ts';
import { address, reinspectionDay, type Life, type Step } from '../support/life.ts';
import * as quality from '../support/quality.ts';

const finding = 'Say which opening of the meter was used in the bath.';

export function fileIsReleased(step: Step, life: Life): void {
  step('the quality manager reads the file, computed again, and returns it', async () => {
    const page = life.pages.quality;
    await quality.openFile(page, address);
    await told(page, /Computed again from the raw readings, all \d+ verdicts come out as they were stored/);
    await page.getByRole('button', { name: 'Return the file' }).click();
    await page.getByRole('alert').first().waitFor();
    await quality.noteFinding(page, /Bath exhaust/, finding, 'Minor');
    await quality.returnFile(page);
  });

  step('the rater answers and puts the file before her again', async () => {
    const page = life.pages.rater;
    await page.goto(`/day?day=${reinspectionDay}`);
    await page.getByText('Returned files (1)').waitFor();
    await page.locator('summary').filter({ hasText: address }).click();
    await fill(page, { 'Answer to:': 'The widest one' });
    await page.getByRole('button', { name: 'Keep the answer' }).click();
    await told(page, 'Answer kept.');
    await page.getByRole('button', { name: 'Send to review again' }).click();
    await dialog(page).getByRole('button', { name: 'Send' }).click();
    await told(page, 'The file is with the quality manager.');
  });

  step('the quality manager releases; the sealed file is intact', async () => {
    const page = life.pages.quality;
    await quality.openFile(page, address);
    await told(page, 'The widest one');
    await quality.release(page);
    await page.getByRole('link', { name: 'Sealed revision 1' }).click();
    await told(page, 'Intact: content, photos and record in the log are what was sealed.');
  });

  step('the builder sees the result', async () => {
    const page = life.pages.builder;
    await page.goto('/my-houses');
    await page.getByRole('link', { name: address }).click();
    const result = page.getByRole('region', { name: 'Released result' });
    await result.getByRole('table').waitFor();
    expect(await result.innerText()).toMatch(/Total duct leakage.*70 cfm/s);
  });
}
