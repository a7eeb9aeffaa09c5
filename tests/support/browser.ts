import type { Browser } from 'playwright-core';
import { inject } from 'vitest';
import type { Chromium } from './chromium.ts';
import { launch } from './launch.ts';

declare module 'vitest' {
  interface ProvidedContext {
    chromium: Chromium;
  }
}

/** The browser that the run's setup found. */
export const launchBrowser = (): Promise<Browser> => launch(inject('chromium'));
