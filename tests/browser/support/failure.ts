import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { root } from '@countercheck/host/places';
import type { Page } from 'playwright-core';

/** Leaves a picture of every open page behind, for whoever has to find out why a test failed. */
export async function showFailure(pages: Record<string, Page>): Promise<void> {
  const folder = join(root, 'tests', 'results');
  mkdirSync(folder, { recursive: true });
  for (const [name, page] of Object.entries(pages)) {
    const path = join(folder, `failed-${name}.png`);
    await page.screenshot({ path, fullPage: true }).catch(() => undefined);
    console.error(`${name} was at ${page.url()}: ${path}`);
  }
}
