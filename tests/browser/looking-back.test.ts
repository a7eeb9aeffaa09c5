import { withClient } from '@countercheck/host/database';
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { dialog, fill, problemOf, search, told } from './support/forms.ts';
import { barriers } from './support/health.ts';
import { demoService, onPage } from './support/service.ts';

const service = demoService();

const asQuality = (address: string, work: (page: Page) => Promise<void>) =>
  onPage(service, { as: 'quality', address }, async (page, troubles) => {
    await work(page);
    expect(troubles).toEqual([]);
  });

/** Holds back every run at the houses' facts for as long as the work takes, so that it can be met on its way. */
const whileHeldBack = (work: () => Promise<void>) =>
  withClient(service.server.ownerUrl, async (client) => {
    await client.query('BEGIN');
    await client.query('LOCK TABLE house_facts IN ACCESS EXCLUSIVE MODE');
    try {
      await work();
    } finally {
      await client.query('ROLLBACK');
    }
  });

it('a replay is asked for, cancelled on its way, started again and read', async () => {
  const sets = await service.people.ask<{ key: string; title: string; version: string }[]>(
    'quality',
    'GET',
    '/rule-sets',
  );
  const { title, version } = sets.find(({ key }) => key === 'company-strict')!;
  await asQuality('/replays', async (page) => {
    await page.getByRole('button', { name: 'Start a replay' }).click();
    const form = dialog(page, 'Start a replay');
    await form.getByRole('button', { name: 'Start', exact: true }).click();
    expect(await problemOf(form, 'Rule set to apply')).not.toBe('');
    await fill(form, { 'Rule set to apply': `${title} ${version}`, Note: 'Before the yearly talk' });
    await whileHeldBack(async () => {
      await form.getByRole('button', { name: 'Start', exact: true }).click();
      await page.getByRole('heading', { name: `${title} ${version} over past houses` }).waitFor();
      await page.getByRole('progressbar').waitFor();
      await page.getByRole('button', { name: 'Cancel' }).click();
      await told(page, 'Stopping…');
    });
    await told(page, 'It was cancelled; nothing that it had found is kept.');

    await page.getByRole('button', { name: 'Start it again' }).click();
    const table = page.getByRole('table', { name: 'Verdicts that would change, by item' });
    await table.waitFor({ timeout: 60_000 });
    expect(await table.getByRole('row').count()).toBeGreaterThan(1);
    await told(page, 'Reinspections with these rules');
    expect(await barriers(page)).toEqual([]);
  });
});

it('a recall names the readings and houses concerned, and a letter goes out', async () => {
  const { items } = await service.people.ask<{ items: { label: string }[] }>(
    'quality',
    'GET',
    '/instruments?kind=manometer',
  );
  const { label } = items[0]!;
  await asQuality('/recalls', async (page) => {
    await page.getByRole('button', { name: 'Recall an instrument' }).click();
    const form = dialog(page, 'Recall an instrument');
    await form.getByRole('button', { name: 'Work it out' }).click();
    expect(await problemOf(form, 'How it was found')).not.toBe('');
    await search(form, 'Instrument', label);
    await fill(form, {
      'First day out of tolerance': '2000-01-01',
      'Shown less true': '-2',
      'How it was found': 'Found at the yearly calibration',
    });
    await form.getByRole('button', { name: 'Work it out' }).click();
    await page.getByRole('heading', { name: `Recall of ${label}` }).waitFor();
    await page.getByRole('region', { name: 'What it did' }).waitFor({ timeout: 60_000 });
    await told(page, /\d+ of \d+ houses have to be measured again/);

    const letters = page.getByRole('region', { name: 'Letters to builders' });
    const letter = letters.getByRole('group').first();
    await letter.locator('summary').click();
    expect(await letter.getByLabel('Letter', { exact: true }).inputValue()).toContain(
      'Found at the yearly calibration',
    );
    await letter.getByRole('button', { name: /^Send to / }).click();
    await dialog(page).getByRole('button', { name: 'Send it' }).click();
    await letters.getByText('Sent', { exact: true }).first().waitFor();
    expect(await barriers(page)).toEqual([]);
  });
});
