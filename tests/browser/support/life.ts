import type { Browser, Page } from 'playwright-core';
import { it } from 'vitest';
import type { TestServer } from '../../support/server.ts';
import { showFailure } from './failure.ts';
import { acceptInvitation, newcomer, type Person } from './people.ts';

const person = (name: string, email: string): Person => ({
  name,
  email,
  password: `quiet ${name.toLowerCase()} over the weir`,
});
export const people = {
  administrator: person('Keeper of Accounts', 'keeper@weir.example'),
  office: person('Office Desk', 'office@weir.example'),
  rater: person('First Rater', 'rater@weir.example'),
  quality: person('Quality Desk', 'quality@weir.example'),
  builder: person('Site Office', 'site@quillbrook.example'),
  otherBuilder: person('Other Site Office', 'site@marlstone.example'),
};
type Who = keyof typeof people | 'installer';

export const address = '14 Weir Lane';
/** Far enough ahead that nothing of today stands in the way. */
export const visitDay = '2031-03-04';
export const reinspectionDay = '2031-03-11';

/** What the steps hand on to each other. */
export interface Life {
  server: TestServer;
  browser: Browser;
  pages: Record<Who, Page>;
  /** where the house is on the office's pages */
  house: string;
  /** the installer's personal link */
  link: string;
}
export type Step = (name: string, work: () => Promise<void>) => void;

/** Steps of one story: after one that failed the rest cannot be played, and the run has failed already. */
export function storyOf(life: Life): Step {
  let broken = false;
  return (name, work) =>
    it(name, async (context) => {
      if (broken) return context.skip('a step before this one failed');
      try {
        await work();
      } catch (error) {
        broken = true;
        await showFailure(life.pages);
        throw error;
      }
    });
}

/** Somebody accepts the invitation in a browser of their own. */
export async function comes(
  life: Life,
  who: keyof typeof people,
  invitation: string,
  width?: number,
): Promise<void> {
  life.pages[who] = await newcomer(life.browser, life.server.url, width);
  await acceptInvitation(life.pages[who], invitation, people[who]);
}
