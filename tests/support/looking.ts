import { rmSync } from 'node:fs';
import type { Browser } from 'playwright-core';
import { findChromium } from './chromium.ts';
import { launch } from './launch.ts';

/** The service that is looked at; it has to be running with the demo. */
export const lookedAt = process.env['LOOK_URL'] ?? 'http://localhost:4300';

/** Runs something with a browser outside of the tests. */
export async function withBrowser(work: (browser: Browser) => Promise<void>): Promise<void> {
  const { chromium, folder } = await findChromium();
  const browser = await launch(chromium);
  try {
    await work(browser);
  } finally {
    await browser.close();
    rmSync(folder, { recursive: true, force: true });
  }
}
