import { mkdirSync, rmSync } from 'node:fs';
import { demoSignIns } from '../prisma/demo/sign-ins.ts';
import { findChromium } from './support/chromium.ts';
import { launch } from './support/launch.ts';

// Usage: node --import tsx tests/look.ts <role|nobody> <path> [width] [light|dark]
// Takes a picture of a page of the demo as that role sees it; LOOK_URL names a server elsewhere.
const [role = 'nobody', path = '/', width = '1280', scheme = 'light'] = process.argv.slice(2);
const url = process.env['LOOK_URL'] ?? 'http://localhost:4300';
const results = new URL('./results/', import.meta.url).pathname;

const { chromium, folder } = await findChromium();
const browser = await launch(chromium);
try {
  const context = await browser.newContext({
    baseURL: url,
    viewport: { width: Number(width), height: Number(width) < 600 ? 844 : 900 },
    colorScheme: scheme === 'dark' ? 'dark' : 'light',
  });
  const person = demoSignIns.find((each) => each.role.toLowerCase().startsWith(role.toLowerCase()));
  if (person) {
    const { email, password } = person;
    const headers = { 'x-requested-with': 'countercheck' };
    const answer = await context.request.post('/api/session', { data: { email, password }, headers });
    if (!answer.ok()) throw new Error(`${email} cannot sign in: ${await answer.text()}`);
  }
  const page = await context.newPage();
  page.on('console', (message) => message.type() === 'error' && console.error(message.text()));
  await page.goto(path);
  await page.waitForLoadState('networkidle');
  mkdirSync(results, { recursive: true });
  const name = [role, path.replaceAll(/[^\w-]+/g, '-'), width, scheme].join('.').replaceAll('.-', '.');
  const file = `${results}${name}.png`;
  await page.screenshot({ path: file, fullPage: true });
  console.log(file);
} finally {
  await browser.close();
  rmSync(folder, { recursive: true, force: true });
}
