import { demoSignIns } from '../../../prisma/demo/sign-ins.ts';
import type { Role } from '@countercheck/contracts';

/** Reads or writes through the API as somebody; the answer's body. */
export type Ask = <T = { items: { id: string }[] }>(
  who: Role,
  method: 'GET' | 'POST',
  path: string,
  body?: object,
) => Promise<T>;

export interface PageRow {
  /** as the route table writes it */
  path: string;
  as: Role | 'nobody';
  /** the address of one such page in the demo, when it names a record */
  address?: (ask: Ask) => Promise<string>;
  /** what one comes to this page for, by the words on it */
  main: string | RegExp;
  /** what such a page tells the console because it is meant to */
  expected?: RegExp;
}

const first = async (ask: Ask, who: Role, path: string) => (await ask(who, 'GET', path)).items[0]!.id;

export async function installersLink(ask: Ask): Promise<string> {
  const house = await first(ask, 'office', '/houses?stage=awaiting_figures');
  const installerId = await first(ask, 'office', '/installers');
  const body = { installerId };
  const { url } = await ask<{ url: string }>('office', 'POST', `/houses/${house}/installer-links`, body);
  return new URL(url).pathname;
}

export async function openVisit(ask: Ask): Promise<string> {
  const { items } = await ask<{ items: { id: string; state: string; rater: { name: string } }[] }>(
    'rater',
    'GET',
    '/visits?pageSize=100',
  );
  const own = demoSignIns.find(({ role }) => role === 'Rater')!.name;
  return items.find(({ state, rater }) => state === 'booked' && rater.name === own)!.id;
}

/** Every page of the route table with somebody who works on it. */
export const pageRows: PageRow[] = [
  { path: '/', as: 'office', main: /reinspections to book/ },
  { path: '/account', as: 'office', main: 'Save' },
  { path: '/day', as: 'rater', main: 'The day after' },
  {
    path: '/visits/$id',
    as: 'rater',
    address: async (ask) => `/visits/${await openVisit(ask)}`,
    main: 'Submit the visit',
  },
  { path: '/figures/$token', as: 'nobody', address: installersLink, main: 'Sign the figures' },
  { path: '/my-houses', as: 'builder', main: 'Address or lot' },
  {
    path: '/my-houses/$id',
    as: 'builder',
    address: async (ask) => `/my-houses/${await first(ask, 'builder', '/houses?stage=corrections')}`,
    main: /./,
  },
  {
    path: '/my-failed-items/$id',
    as: 'builder',
    address: async (ask) => `/my-failed-items/${await first(ask, 'builder', '/failed-items?state=open')}`,
    main: 'Record the correction',
  },
  { path: '/houses', as: 'office', main: 'Register a house' },
  { path: '/houses/new', as: 'office', main: 'Register the house' },
  { path: '/houses/import', as: 'office', main: 'Check the file' },
  {
    path: '/houses/$id',
    as: 'office',
    address: async (ask) => `/houses/${await first(ask, 'office', '/houses?stage=corrections')}`,
    main: 'Book a visit',
  },
  {
    path: '/houses/$id/edit',
    as: 'office',
    address: async (ask) => `/houses/${await first(ask, 'office', '/houses?stage=booked')}/edit`,
    main: 'Save',
  },
  { path: '/visits', as: 'office', main: 'Book a visit' },
  { path: '/reinspections', as: 'office', main: 'Book' },
  { path: '/failed-items', as: 'office', main: /./ },
  { path: '/review', as: 'quality', main: 'Address or lot' },
  {
    path: '/review/$id',
    as: 'quality',
    address: async (ask) => `/review/${await first(ask, 'quality', '/reviews/queue')}`,
    main: 'Release and seal',
  },
  { path: '/releases/$id', as: 'quality', address: sealedFile, main: 'Show what was sealed' },
  { path: '/builders', as: 'office', main: 'Register a builder' },
  {
    path: '/builders/$id',
    as: 'office',
    address: async (ask) => `/builders/${await first(ask, 'office', '/builders')}`,
    main: 'Add a plan',
  },
  { path: '/installers', as: 'office', main: 'Register an installer' },
  { path: '/instruments', as: 'quality', main: 'Register an instrument' },
  {
    path: '/instruments/$id',
    as: 'quality',
    address: async (ask) => `/instruments/${await first(ask, 'quality', '/instruments')}`,
    main: 'Record a calibration',
  },
  { path: '/calculator', as: 'rater', main: 'Fill in an example' },
  { path: '/rule-sets', as: 'quality', main: /./ },
  {
    path: '/rule-sets/$id',
    as: 'quality',
    address: async (ask) =>
      `/rule-sets/${(await ask<{ id: string }[]>('quality', 'GET', '/rule-sets'))[0]!.id}`,
    main: /./,
  },
  { path: '/replays', as: 'quality', main: 'Start a replay' },
  { path: '/replays/$id', as: 'quality', address: endedReplay, main: 'Start it again' },
  { path: '/recalls', as: 'quality', main: 'Recall an instrument' },
  { path: '/recalls/$id', as: 'quality', address: endedRecall, main: /Every house concerned/ },
  { path: '/users', as: 'administrator', main: 'Invite a user' },
  { path: '/company', as: 'administrator', main: 'Save' },
  { path: '/mail', as: 'administrator', main: 'Recipient or subject' },
  { path: '/events', as: 'administrator', main: /./ },
];

async function sealedFile(ask: Ask): Promise<string> {
  const house = await first(ask, 'quality', '/houses?stage=released');
  const file = await ask<{ releases: { id: string }[] }>('quality', 'GET', `/houses/${house}/file`);
  return `/releases/${file.releases[0]!.id}`;
}

async function whenEnded(ask: Ask, path: string): Promise<string> {
  for (;;) {
    const { state } = await ask<{ state: string }>('quality', 'GET', path);
    if (state === 'done') return path;
    if (state !== 'waiting' && state !== 'running') throw new Error(`${path}: ${state}`);
    await new Promise((resolve) => setTimeout(resolve, 300));
  }
}

/** Common practice gives way to the stricter set of the company. */
async function endedReplay(ask: Ask): Promise<string> {
  const sets = await ask<{ id: string; key: string }[]>('quality', 'GET', '/rule-sets');
  const ruleSetId = sets.find(({ key }) => key === 'company-strict')!.id;
  const { id } = await ask<{ id: string }>('quality', 'POST', '/replays', { ruleSetId, filter: {} });
  return whenEnded(ask, `/replays/${id}`);
}

async function endedRecall(ask: Ask): Promise<string> {
  const instrumentId = await first(ask, 'quality', '/instruments?kind=manometer');
  const { id } = await ask<{ id: string }>('quality', 'POST', '/recalls', {
    ...{ instrumentId, from: '2000-01-01', to: '2099-12-31', reason: 'Found at the yearly calibration' },
    error: { kind: 'offset', value: -2 },
  });
  return whenEnded(ask, `/recalls/${id}`);
}

/** The pages in front of the session, which no route table lists. */
export const entranceRows: PageRow[] = [
  { path: '/sign-in', as: 'nobody', main: 'Sign in' },
  { path: '/sign-in/code', as: 'nobody', main: 'Go on' },
  { path: '/forgot', as: 'nobody', main: 'Send the link' },
  { path: '/access/no-such-link', as: 'nobody', main: 'Sign in', expected: /404/ },
];

/** The paths of the app itself; found at run time, because the pages are of another project of the compiler. */
export async function routeTable(): Promise<string[]> {
  const file = new URL('../../../apps/web/src/app/routes.ts', import.meta.url).href;
  const { pageRoutes } = (await import(/* @vite-ignore */ file)) as { pageRoutes: { path: string }[] };
  return pageRoutes.map(({ path }) => path);
}
