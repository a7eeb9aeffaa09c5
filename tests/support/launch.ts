import { chromium as driver, type Browser } from 'playwright-core';
import type { Chromium } from './chromium.ts';

/** A browser that talks to nobody but the page under test. */
export function launch({ executable, env }: Chromium): Promise<Browser> {
  return driver.launch({
    executablePath: executable,
    headless: true,
    env: { ...(process.env as Record<string, string>), ...env },
    args: [
      // Containers and root cannot have the sandbox, and the pages are our own.
      '--no-sandbox',
      ...['--disable-gpu', '--disable-quic', '--disable-sync', '--no-first-run'],
      ...['--disable-background-networking', '--disable-component-update', '--disable-dev-shm-usage'],
    ],
  });
}
