import { spawn, type ChildProcess } from 'node:child_process';
import { existsSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { chromium as driver, type BrowserContext, type Page } from 'playwright-core';
import type { Chromium } from '../../support/chromium.ts';
import { temporaryFolder } from '../../support/temporary.ts';

/** A browser whose store outlives it, and that can be killed as a phone dies. */
export interface OwnBrowser {
  page(): Promise<Page>;
  context: BrowserContext;
  /** at once, with nothing put in order */
  kill(): Promise<void>;
}

const flags = [
  ...[
    '--headless=new',
    '--no-sandbox',
    '--disable-gpu',
    '--disable-quic',
    '--disable-sync',
    '--no-first-run',
  ],
  ...['--disable-background-networking', '--disable-component-update', '--disable-dev-shm-usage'],
  ...['--remote-debugging-port=0', '--window-size=390,844'],
];

export const profileFolder = (): string => temporaryFolder('phone');

async function ended(process: ChildProcess): Promise<void> {
  if (process.exitCode === null && process.signalCode === null)
    await new Promise((resolve) => process.once('exit', resolve));
}

/** Starts a browser on a profile that may have been used before. */
export async function openOwnBrowser({ executable, env }: Chromium, profile: string): Promise<OwnBrowser> {
  const portFile = join(profile, 'DevToolsActivePort');
  rmSync(portFile, { force: true });
  const child = spawn(executable, [...flags, `--user-data-dir=${profile}`, 'about:blank'], {
    env: { ...process.env, ...env },
    stdio: 'ignore',
  });
  for (
    let tries = 0;
    !existsSync(portFile) || readFileSync(portFile, 'utf8').split('\n').length < 2;
    tries += 1
  ) {
    if (tries > 300 || child.exitCode !== null) throw new Error('The browser does not start.');
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  const [port, path] = readFileSync(portFile, 'utf8').split('\n');
  const browser = await driver.connectOverCDP(`ws://127.0.0.1:${port}${path}`);
  const context = browser.contexts()[0]!;
  context.setDefaultTimeout(30_000);
  return {
    context,
    async page() {
      const page = await context.newPage();
      await page.setViewportSize({ width: 390, height: 844 });
      return page;
    },
    async kill() {
      child.kill('SIGKILL');
      await ended(child);
      await browser.close().catch(() => undefined);
    },
  };
}
