import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { launchBrowser } from '../support/browser.ts';
import { startServer, type TestServer } from '../support/server.ts';
import { demoPeople } from './support/demo.ts';
import { showFailure } from './support/failure.ts';
import { fill } from './support/forms.ts';
import { barriers, listen, settled } from './support/health.ts';

let server: TestServer;
let browser: Browser;
beforeAll(async () => {
  server = await startServer({ demo: true });
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

const panel = (page: Page, name: RegExp) => page.getByRole('region', { name });
const press = (page: Page, name: string) => page.getByRole('button', { name, exact: true }).click();

async function exported(page: Page, folder: string): Promise<string> {
  const waiting = page.waitForEvent('download');
  await page.getByRole('link', { name: 'Export draw.json' }).click();
  const path = join(folder, 'draw.json');
  await (await waiting).saveAs(path);
  return path;
}

it('a quality manager publishes a seed, freezes, draws, orders, and repeats the draw from its export', async () => {
  const context = await demoPeople(browser, server.url).open('quality', { width: 1280 });
  const page = await context.newPage();
  const troubles = listen(page);
  const folder = mkdtempSync(join(tmpdir(), 'draw-'));
  try {
    await page.goto('/draws');
    await settled(page);
    await press(page, 'Start a draw');
    await fill(page, { Title: 'Ten percent of the year', 'Share, %': '10' });
    await press(page, 'Publish the commitment');
    await page.getByRole('heading', { name: 'Ten percent of the year', level: 1 }).waitFor();
    const commitment = await page.getByLabel('Commitment (SHA-256 of the seed)').inputValue();
    expect(commitment).toMatch(/^[0-9a-f]{64}$/);
    expect(await page.getByLabel('Seed', { exact: true }).count()).toBe(0);

    await fill(page, { 'Which files': 'Both' });
    await press(page, 'Count the files');
    await page.getByText(/\d+ files of \d+ raters .* would be drawn/).waitFor();
    await press(page, 'Freeze the population');
    await press(page, 'Freeze it');
    await panel(page, /^Step 3/).waitFor();

    await fill(page, { 'A witness’ contribution': 'dice 5 2 2' });
    await press(page, 'Reveal the seed and draw');
    await page.getByRole('region', { name: 'Files drawn' }).waitFor();
    await press(page, 'Repeat the draw here');
    await page.getByText('The draw was repeated: every part is the same.').waitFor();

    const path = await exported(page, folder);
    const record = JSON.parse(readFileSync(path, 'utf8')) as Record<string, unknown>;
    expect(record).toMatchObject({ commitment, witness: 'dice 5 2 2', method: 'stratified' });
    // The command of the project, with nothing of the service around it.
    const again = spawnSync(
      process.execPath,
      ['--import', 'tsx', 'apps/api/src/commands/repeat-draw.ts', path],
      {
        encoding: 'utf8',
        env: { PATH: process.env['PATH'] },
      },
    );
    expect(again.stdout + again.stderr).toContain('The draw was repeated: every part is the same.');
    expect(again.status).toBe(0);

    await press(page, 'Order the reviews');
    await page.getByText('What the draw says').waitFor();
    await page.getByRole('region', { name: 'Files drawn' }).getByText('Open').first().waitFor();
    expect(await barriers(page)).toEqual([]);

    await page.goto('/obligations');
    await settled(page);
    await page.getByRole('table', { name: 'File reviews by rater' }).waitFor();
    expect(troubles).toEqual([]);
  } catch (error) {
    await showFailure({ draws: page });
    throw error;
  } finally {
    rmSync(folder, { recursive: true, force: true });
    await context.close();
  }
});
