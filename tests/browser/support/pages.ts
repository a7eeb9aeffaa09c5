import type { Role } from '@countercheck/contracts';
import {
  chartOfRater,
  endedRecall,
  endedPlan,
  endedReplay,
  first,
  frozenDraw,
  openBatch,
  foundSignal,
  installersLink,
  mailLink,
  openAction,
  openVisit,
  readinessLink,
  ownSealedFile,
  orderedRetest,
  reviewToTake,
  sealedFile,
  type Ask,
} from './addresses.ts';

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

/** Every page of the route table with somebody who works on it. */
export const pageRows: PageRow[] = [
  { path: '/', as: 'office', main: /reinspections to book/ },
  { path: '/account', as: 'office', main: 'Save' },
  { path: '/day', as: 'rater', main: 'The day after' },
  { path: '/unsent', as: 'rater', main: 'My day' },
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
  { path: '/board', as: 'office', main: /^Place/ },
  { path: '/requests', as: 'office', main: 'Ask for a visit' },
  {
    path: '/requests/$id',
    as: 'office',
    address: async (ask) => `/requests/${await first(ask, 'office', '/visit-requests?state=open')}`,
    main: 'Save answers',
  },
  { path: '/not-ready', as: 'builder', main: 'From' },
  { path: '/raters', as: 'office', main: /^Change/ },
  { path: '/calendar', as: 'rater', main: /Make an/ },
  { path: '/ready/$token', as: 'nobody', address: readinessLink, main: 'Save answers' },
  { path: '/mail-choices/$token', as: 'nobody', address: mailLink, main: 'Save' },
  { path: '/reinspections', as: 'office', main: 'Book' },
  { path: '/failed-items', as: 'office', main: /./ },
  { path: '/failed-items/board', as: 'quality', main: 'Save as CSV' },
  { path: '/review', as: 'quality', main: 'Address or lot' },
  {
    path: '/review/$id',
    as: 'quality',
    address: async (ask) => `/review/${await first(ask, 'quality', '/reviews/queue')}`,
    main: 'Release and seal',
  },
  { path: '/releases/$id', as: 'quality', address: sealedFile, main: 'Show what was sealed' },
  {
    path: '/releases/$id/proof',
    as: 'builder',
    address: async (ask) => `${await ownSealedFile(ask)}/proof`,
    main: 'Save the proof',
  },
  { path: '/file-reviews', as: 'quality', main: 'Order a review' },
  { path: '/file-reviews/$id', as: 'quality', address: reviewToTake, main: 'Take this review' },
  { path: '/file-findings', as: 'quality', main: 'State' },
  { path: '/retests', as: 'quality', main: 'Order a re-test' },
  { path: '/retests/$id', as: 'quality', address: orderedRetest, main: 'Withdraw' },
  { path: '/differences', as: 'quality', main: 'Test' },
  { path: '/corrective-actions', as: 'quality', main: 'Open an action' },
  { path: '/corrective-actions/$id', as: 'quality', address: openAction, main: 'Hold the rater' },
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
  { path: '/obligations', as: 'quality', main: 'Change the share of file reviews' },
  { path: '/draws', as: 'quality', main: 'Start a draw' },
  { path: '/draws/$id', as: 'quality', address: frozenDraw, main: 'Reveal the seed and draw' },
  { path: '/batches', as: 'quality', main: 'Open a batch' },
  { path: '/batches/$id', as: 'quality', address: openBatch, main: 'Take the result of' },
  { path: '/sample-plans', as: 'quality', main: 'Not accepted' },
  { path: '/calculator', as: 'rater', main: 'Fill in an example' },
  { path: '/rule-sets', as: 'quality', main: /./ },
  {
    path: '/rule-sets/$id',
    as: 'quality',
    address: async (ask) =>
      `/rule-sets/${(await ask<{ id: string }[]>('quality', 'GET', '/rule-sets'))[0]!.id}`,
    main: /./,
  },
  { path: '/plans', as: 'office', main: 'Plan the week' },
  { path: '/plans/$id', as: 'office', address: endedPlan, main: /In short/ },
  { path: '/replays', as: 'quality', main: 'Start a replay' },
  { path: '/replays/$id', as: 'quality', address: endedReplay, main: 'Start it again' },
  { path: '/recalls', as: 'quality', main: 'Recall an instrument' },
  { path: '/recalls/$id', as: 'quality', address: endedRecall, main: /Every house concerned/ },
  { path: '/signals', as: 'quality', main: 'Look at the readings' },
  { path: '/signals/$id', as: 'quality', address: foundSignal, main: 'Lay it aside' },
  { path: '/control-charts', as: 'quality', address: chartOfRater, main: 'Item' },
  { path: '/users', as: 'administrator', main: 'Invite a user' },
  { path: '/company', as: 'administrator', main: 'Save' },
  { path: '/mail', as: 'administrator', main: 'Recipient or subject' },
  { path: '/events', as: 'administrator', main: /./ },
  { path: '/event-log', as: 'quality', main: 'Save the head' },
];

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
