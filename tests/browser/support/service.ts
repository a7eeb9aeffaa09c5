import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll } from 'vitest';
import { launchBrowser } from '../../support/browser.ts';
import { startServer, type TestServer } from '../../support/server.ts';
import { demoPeople } from './demo.ts';
import { showFailure } from './failure.ts';
import { listen, settled } from './health.ts';
import type { PageRow } from './pages.ts';

interface DemoService {
  server: TestServer;
  people: ReturnType<typeof demoPeople>;
}

/** The whole service with the demo and a browser before it, for the tests of one file; there once these begin. */
export function demoService(): DemoService {
  const service = {} as DemoService;
  let browser: Browser | undefined;
  beforeAll(async () => {
    service.server = await startServer({ demo: true });
    browser = await launchBrowser();
    service.people = demoPeople(browser, service.server.url);
  });
  afterAll(async () => {
    await browser?.close();
    await service.server?.stop();
  });
  return service;
}

interface Look {
  as: PageRow['as'];
  address: string;
  width?: number | undefined;
  dark?: boolean | undefined;
}

/** Works on one page in a window of its own, with what it tells the console; a failure leaves a picture behind. */
export async function onPage(
  { people }: DemoService,
  { as, address, width = 1280, dark = false }: Look,
  work: (page: Page, troubles: readonly string[]) => Promise<void>,
): Promise<void> {
  const context = await people.open(as, { width, dark });
  const page = await context.newPage();
  const troubles = listen(page);
  try {
    await page.goto(address);
    await settled(page);
    await work(page, troubles);
  } catch (error) {
    await showFailure({ [`${as}${address}-${width}`.replaceAll(/[^\w-]+/g, '-')]: page });
    throw error;
  } finally {
    await context.close();
  }
}
