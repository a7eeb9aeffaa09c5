import type { Browser, BrowserContext } from 'playwright-core';
import { demoSignIns } from '../../../prisma/demo/sign-ins.ts';
import { roleLabels, type Role } from '@countercheck/contracts';
import type { Ask } from './addresses.ts';
import type { PageRow } from './pages.ts';

/** The people of the demo, each signed in once, in as many windows as a test wants. */
export function demoPeople(browser: Browser, baseURL: string) {
  const states = new Map<Role, Promise<Awaited<ReturnType<BrowserContext['storageState']>>>>();
  const headers = { 'x-requested-with': 'countercheck' };

  async function signIn(role: Role) {
    const { email, password } = demoSignIns.find((each) => each.role === roleLabels[role])!;
    const context = await browser.newContext({ baseURL });
    const answer = await context.request.post('/api/session', { data: { email, password }, headers });
    if (!answer.ok()) throw new Error(`${email} cannot sign in: ${await answer.text()}`);
    const state = await context.storageState();
    await context.close();
    return state;
  }
  function stateOf(role: Role) {
    const known = states.get(role) ?? signIn(role);
    states.set(role, known);
    return known;
  }

  async function open(who: PageRow['as'], { width = 1280, dark = false } = {}): Promise<BrowserContext> {
    return browser.newContext({
      baseURL,
      viewport: { width, height: width < 600 ? 844 : 900 },
      colorScheme: dark ? 'dark' : 'light',
      reducedMotion: 'reduce',
      ...(who === 'nobody' ? {} : { storageState: await stateOf(who) }),
    });
  }

  const ask: Ask = async (who, method, path, data) => {
    const context = await open(who);
    try {
      const answer = await context.request.fetch(`/api${path}`, { method, headers, data });
      if (!answer.ok()) throw new Error(`${method} ${path}: ${await answer.text()}`);
      return await answer.json();
    } finally {
      await context.close();
    }
  };
  /** Whose session was ended: the next one who asks signs in anew. */
  const forget = (role: Role) => states.delete(role);
  return { open, ask, forget };
}
