import { afterAll, beforeAll } from 'vitest';
import { launchBrowser } from '../support/browser.ts';
import { startServer } from '../support/server.ts';
import { companyBegins } from './chapters/company.ts';
import { houseIsCorrected } from './chapters/correction.ts';
import { houseIsRegistered } from './chapters/house.ts';
import { fileIsReleased } from './chapters/review.ts';
import { houseIsMeasured } from './chapters/visit.ts';
import { storyOf, type Life } from './support/life.ts';

// One house from its registration to its sealed file, each part played by its role on the real pages.
const life = { pages: {} } as Life;
const step = storyOf(life);

beforeAll(async () => {
  life.server = await startServer();
  life.browser = await launchBrowser();
});
afterAll(async () => {
  await life.browser?.close();
  await life.server?.stop();
});

companyBegins(step, life);
houseIsRegistered(step, life);
houseIsMeasured(step, life);
houseIsCorrected(step, life);
fileIsReleased(step, life);
