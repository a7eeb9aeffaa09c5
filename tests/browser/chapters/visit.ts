import { expect } from 'vitest';
import { displayPhoto } from '../../../prisma/demo/photo.ts';
import { problemOf } from '../support/forms.ts';
import { address, visitDay, type Life, type Step } from '../support/life.ts';
import * as rater from '../support/rater.ts';
import { ductsAt25, ductTester, manometer, walk } from '../support/walk.ts';

export function houseIsMeasured(step: Step, life: Life): void {
  step('the rater opens the sheet from the day', async () => {
    const page = life.pages.rater;
    await page.goto(`/day?day=${visitDay}`);
    await page.getByRole('link', { name: address }).click();
    await page.getByRole('heading', { level: 1, name: address }).waitFor();
    await page.getByText('Before you begin').waitFor();
  });

  step('a reading that cannot be keeps what was typed', async () => {
    const page = life.pages.rater;
    const ducts = await rater.openItem(page, 'Total duct leakage');
    const form = await rater.formOf(ducts, 'Total duct leakage');
    await rater.type(form, {
      instrument: ductTester,
      fields: { 'Duct pressure': 'high', 'Fan flow': '150' },
    });
    await form.getByRole('button', { name: 'Record the reading' }).click();
    expect(await problemOf(form, /^Duct pressure/)).toMatch(/number/i);
    await rater.type(form, { instrument: ductTester, fields: { 'Duct pressure': '0' } });
    await form.getByRole('button', { name: 'Record the reading' }).click();
    expect(await problemOf(form, /^Duct pressure/)).toMatch(/Pa/);
    expect(await form.getByLabel(/^Fan flow/).inputValue()).toBe('150');
  });

  step('result and verdict come with their reason: too much leaks', async () => {
    const page = life.pages.rater;
    const ducts = rater.item(page, 'Total duct leakage');
    const form = await rater.formOf(ducts, 'Total duct leakage');
    await rater.type(form, ductsAt25('150'));
    expect(await rater.preview(form).innerText()).toMatch(/Leakage at 25 Pa\s+150/);
    await rater.recordReading(page, form);
    await ducts.locator('.status-fail').first().waitFor();
    expect(await rater.reason(ducts).innerText()).toMatch(/150 cfm.*108 cfm/s);
  });

  step('the supply side is compared with what the installer signed', async () => {
    const page = life.pages.rater;
    const entered = { instrument: manometer, fields: { Pressure: '0.092' } };
    const words = await rater.read(page, { title: 'Supply static pressure' }, entered);
    expect(words).toContain('108 %');
    expect(words).toContain('0.085');
    await rater.item(page, 'Supply static pressure').locator('.status-pass').first().waitFor();
  });

  step('a photo goes with the item that failed', async () => {
    const page = life.pages.rater;
    const ducts = await rater.openItem(page, 'Total duct leakage');
    await rater.addPhoto(page, ducts, 'Gauge of the duct tester', await displayPhoto('150', 190));
  });

  step('every other open item is read, and the visit submitted', async () => {
    const page = life.pages.rater;
    for (const stop of walk) await rater.read(page, stop, stop.entered);
    await page.getByText('Nothing waits any more.').waitFor();
    expect(await page.locator('.item .item-marks .status-fail').count()).toBe(1);
    await rater.submitVisit(page);
  });

  step('the installer’s figures stand from now on', async () => {
    const page = life.pages.installer;
    await page.reload();
    await page.getByText('These figures stand').waitFor();
    expect(await page.getByRole('button', { name: 'Correct and sign again' }).count()).toBe(0);
  });
}
