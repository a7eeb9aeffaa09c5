import { expect } from 'vitest';
import { displayPhoto } from '../../../prisma/demo/photo.ts';
import { askReinspection, recordCorrection } from '../support/builder.ts';
import { problemOf, told } from '../support/forms.ts';
import { address, reinspectionDay, type Life, type Step } from '../support/life.ts';
import * as office from '../support/office.ts';
import * as rater from '../support/rater.ts';
import { ductsAt25 } from '../support/walk.ts';

export function houseIsCorrected(step: Step, life: Life): void {
  step('the builder sees what failed, by how much, and whose work it is', async () => {
    const page = life.pages.builder;
    await page.goto('/my-houses');
    await page.getByRole('link', { name: address }).waitFor();
    expect(await page.getByRole('row').count()).toBe(4);
    await page.getByRole('link', { name: address }).click();
    const item = page.getByRole('listitem').filter({ hasText: 'Total duct leakage' }).first();
    await item.waitFor();
    const words = await item.innerText();
    expect(words).toMatch(/150 cfm.*108 cfm/s);
    expect(words).toContain('seal joints, boots');
    expect(words).toContain('HVAC installer');
  });

  step('another builder is told that there is no such house', async () => {
    const page = life.pages.otherBuilder;
    await page.goto('/my-houses');
    await told(page, 'No house of yours is registered yet');
    await page.goto(new URL(life.pages.builder.url()).pathname);
    await told(page, 'There is no such record, or it is not yours to see');
  });

  step('the builder records the correction and asks for a reinspection', async () => {
    const page = life.pages.builder;
    await page.getByRole('link', { name: /^Total duct leakage/ }).click();
    await page.getByRole('button', { name: 'Record the correction' }).click();
    expect(await problemOf(page, /^What was corrected/)).toContain('Please fill this in');
    await recordCorrection(page, 'Boots and the plenum sealed', await displayPhoto('84', 20));
    await page.getByRole('img').first().waitFor();
    await page.getByRole('link', { name: address }).click();
    await askReinspection(page, 'The key is with the superintendent');
  });

  step('the office books it from the request', async () => {
    const page = life.pages.office;
    await page.goto('/reinspections');
    await page.getByRole('button', { name: `Book the reinspection of ${address}` }).click();
    const times = { rater: 'First Rater', day: reinspectionDay, start: '13:00', end: '14:00' };
    await office.book(page, times);
    await told(page, 'Visit booked');
  });

  step('the reinspection asks for what failed and what hangs on it, and it passes', async () => {
    const page = life.pages.rater;
    await page.goto(`/day?day=${reinspectionDay}`);
    await page.getByRole('link', { name: address }).click();
    await page.getByRole('heading', { level: 1, name: address }).waitFor();
    await rater.openGroups(page);
    const titles = await page.locator('.item .item-name strong').allInnerTexts();
    expect(titles.sort()).toEqual(['Duct leakage to outdoors', 'Total duct leakage']);
    const ducts = await rater.openItem(page, 'Total duct leakage');
    const form = await rater.formOf(ducts, 'Total duct leakage');
    await rater.type(form, ductsAt25('70'));
    await rater.recordReading(page, form);
    await ducts.locator('.status-pass').first().waitFor();
    await rater.submitVisit(page);
  });
}
