import { mkdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { demoPeople } from './browser/support/demo.ts';
import { listen, settled } from './browser/support/health.ts';
import type { PageRow } from './browser/support/pages.ts';
import { lookedAt, withBrowser } from './support/looking.ts';

// Usage: node --import tsx tests/look.ts <role|nobody> <path> [width] [light|dark]
// Takes a picture of a page of the demo as that role sees it, and says what went wrong on the way.
const [role = 'nobody', path = '/', width = '1280', scheme = 'light'] = process.argv.slice(2);
const results = fileURLToPath(new URL('./results', import.meta.url));

await withBrowser(async (browser) => {
  const look = { width: Number(width), dark: scheme === 'dark' };
  const context = await demoPeople(browser, lookedAt).open(role as PageRow['as'], look);
  const page = await context.newPage();
  const troubles = listen(page);
  await page.goto(path);
  await settled(page);
  mkdirSync(results, { recursive: true });
  const words = [role, ...path.split(/[^\w-]+/), width, scheme].filter(Boolean).join('.');
  await page.screenshot({ path: `${results}/${words}.png`, fullPage: true });
  console.log(`${results}/${words}.png`);
  for (const trouble of troubles) console.error(trouble);
});
