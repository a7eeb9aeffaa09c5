import * as z from 'zod';
import { dateSchema, idSchema, instantSchema, pageOf, pageQuery } from '../common.ts';
import { defineRoute } from '../route.ts';

/** Which failed items are looked at; days are the company's, both included. */
const filter = z.object({
  from: dateSchema.optional(),
  to: dateSchema.optional(),
  builderId: idSchema.optional(),
  trade: z.string().max(60).optional(),
  item: z.string().max(80).optional(),
});
const paged = pageQuery.extend(filter.shape);

export const failedGroupings = ['item', 'builder', 'trade', 'community'] as const;
export const failedGroupSchema = z.object({
  rank: z.int().describe('1 is the largest group'),
  key: z.string(),
  label: z.string(),
  failed: z.int().describe('items that failed in the time asked about'),
  times: z.int().describe('how often they failed altogether, reinspections included'),
  share: z.number().describe('of all that failed'),
  cumulative: z.number().describe('share of this and every larger group'),
  open: z.int().describe('not closed yet'),
  openWeek: z.int().describe('of these, not older than 7 days'),
  openMonth: z.int().describe('8 to 30 days old'),
  openQuarter: z.int().describe('31 to 90 days old'),
  openLonger: z.int().describe('older than 90 days'),
  oldestDays: z.int().nullable().describe('age of the oldest that is open'),
});
export type FailedGroup = z.infer<typeof failedGroupSchema>;

export const firstTimeGroupings = ['builder', 'installer', 'rater', 'item'] as const;
export const firstTimeSchema = z.object({
  key: z.string(),
  label: z.string(),
  decided: z.int().describe('items that were decided: they passed, or failed at least once'),
  passed: z.int().describe('of these, never failed'),
  rate: z.number(),
  low: z.number().describe('exact 95 % interval (Clopper-Pearson)'),
  high: z.number(),
});
export type FirstTime = z.infer<typeof firstTimeSchema>;

export const repeatSchema = z.object({
  builder: z.object({ id: idSchema, name: z.string() }),
  plan: z.object({ id: idSchema, name: z.string() }).nullable(),
  item: z.string(),
  title: z.string(),
  houses: z.int().describe('houses of this plan in which the item failed'),
  ofHouses: z.int().describe('houses of this plan visited in that time'),
  times: z.int(),
  lastAt: instantSchema,
});
export type RepeatFailure = z.infer<typeof repeatSchema>;

export const waitingSchema = z
  .object({
    items: z.int(),
    lookedAtAgain: z.int(),
    stillWaiting: z.int().describe('counted with the days they have waited so far (censored)'),
    quantiles: z.array(
      z.object({
        share: z.number(),
        days: z.int().nullable().describe('null while too few were looked at again to tell'),
      }),
    ),
    curve: z.array(
      z.object({
        days: z.int(),
        atRisk: z.int(),
        lookedAtAgain: z.int(),
        censored: z.int(),
        waiting: z.number().describe('share still waiting after that many days (Kaplan-Meier)'),
        low: z.number().describe('95 % interval (Greenwood, on the log-log scale)'),
        high: z.number(),
      }),
    ),
  })
  .meta({ id: 'WaitingTimes' });
export type WaitingTimes = z.infer<typeof waitingSchema>;

const readers = ['quality', 'office', 'administrator'] as const;
const tag = 'Failed items';

export const failedBoard = {
  groups: defineRoute({
    method: 'GET',
    path: '/failed-items/groups',
    tag,
    summary: 'Failed items grouped, the largest group first, with the age of what is open',
    access: readers,
    query: paged.extend({ by: z.enum(failedGroupings).default('item') }),
    response: pageOf(failedGroupSchema),
  }),
  firstTime: defineRoute({
    method: 'GET',
    path: '/failed-items/first-time',
    tag,
    summary: 'Share of items that passed without ever failing, with exact intervals, the lowest first',
    access: readers,
    query: paged.extend({ by: z.enum(firstTimeGroupings).default('builder') }),
    response: pageOf(firstTimeSchema),
  }),
  repeats: defineRoute({
    method: 'GET',
    path: '/failed-items/repeats',
    tag,
    summary: 'The same item failing in several houses of one plan',
    access: readers,
    query: paged,
    response: pageOf(repeatSchema),
  }),
  waiting: defineRoute({
    method: 'GET',
    path: '/failed-items/waiting',
    tag,
    summary: 'Days from a failure until it was looked at again',
    access: readers,
    query: filter,
    response: waitingSchema,
  }),
  export: defineRoute({
    method: 'GET',
    path: '/failed-items/export',
    tag,
    summary: 'The failed items as CSV',
    access: readers,
    query: filter,
    form: 'bytes',
    response: z.unknown(),
  }),
};
