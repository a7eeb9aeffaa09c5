import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';

const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];

/** What goes wrong on a page without anybody seeing it: errors in the console, requests that fail. */
export function listen(page: Page): string[] {
  const troubles: string[] = [];
  page.on('console', (message) => message.type() === 'error' && troubles.push(message.text()));
  page.on('pageerror', (error) => troubles.push(error.message));
  page.on('requestfailed', (request) => {
    // Leaving a page gives up what it was still asking for.
    if (request.failure()?.errorText !== 'net::ERR_ABORTED') troubles.push(`failed: ${request.url()}`);
  });
  page.on('response', (answer) => {
    if (answer.status() >= 400) troubles.push(`${answer.status()}: ${answer.url()}`);
  });
  return troubles;
}

/** Waits until a page shows its content rather than that it is loading. */
export async function settled(page: Page): Promise<void> {
  await page.locator('h1').first().waitFor();
  await page.waitForLoadState('networkidle');
  await page.locator('.loading').first().waitFor({ state: 'detached' });
}

export async function barriers(page: Page): Promise<string[]> {
  const { violations } = await new AxeBuilder({ page }).withTags(tags).analyze();
  return violations.flatMap(({ id, help, nodes }) =>
    nodes.map(({ target, failureSummary }) => `${id} (${help}): ${target.join(' ')}\n${failureSummary}`),
  );
}

/** By how many pixels a page is wider than its window. */
export const overhang = (page: Page): Promise<number> =>
  page.evaluate('document.documentElement.scrollWidth - document.documentElement.clientWidth');

const focused = `(() => {
  const { activeElement: element } = document;
  const labels = [...(element.labels ?? [])].map((label) => label.textContent).join(' ');
  return [element.getAttribute('aria-label'), labels, element.textContent].filter(Boolean).join(' ').trim();
})()`;

/** Goes on with the Tab key until something with these words has the focus; its words, or null when never. */
export async function tabTo(page: Page, words: string | RegExp, most = 150): Promise<string | null> {
  for (let presses = 0; presses < most; presses += 1) {
    await page.keyboard.press('Tab');
    const found = await page.evaluate<string>(focused);
    if (typeof words === 'string' ? found.includes(words) : words.test(found)) return found;
  }
  return null;
}
