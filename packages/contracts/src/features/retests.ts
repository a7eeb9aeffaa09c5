import * as z from 'zod';
import {
  dateSchema,
  idParams,
  idSchema,
  instantSchema,
  optionalText,
  pageOf,
  pageQuery,
  text,
} from '../common.ts';
import { defineRoute } from '../route.ts';
import { testKeys } from '@countercheck/measurement';
import { qualityHouseSchema, qualitySources } from './file-reviews.ts';
import { visitStates } from './visits.ts';

export const retestStates = ['ordered', 'booked', 'done', 'withdrawn'] as const;
const person = z.object({ id: idSchema, name: z.string() });
const scope = z
  .array(z.object({ test: z.enum(testKeys), subjectId: z.string().max(80) }))
  .min(1, 'Name at least one test')
  .max(200)
  .nullish()
  .transform((v) => v ?? null)
  .describe('what is measured again; null = everything that was measured and counts');

const summaryFields = {
  id: idSchema,
  house: qualityHouseSchema,
  rater: person.describe('whose work is measured again'),
  source: z.enum(qualitySources),
  reason: z.string().nullable(),
  dueOn: dateSchema,
  overdue: z.boolean(),
  state: z.enum(retestStates),
  outcome: z.enum(['agrees', 'differs']).nullable(),
  visit: z
    .object({
      id: idSchema,
      state: z.enum(visitStates),
      startsAt: instantSchema,
      rater: person,
    })
    .nullable(),
  orderedBy: z.string(),
  orderedAt: instantSchema,
  doneAt: instantSchema.nullable(),
};
export const retestSummarySchema = z.object(summaryFields).meta({ id: 'RetestSummary' });
export type RetestSummary = z.infer<typeof retestSummarySchema>;

const side = z.object({
  readingId: idSchema,
  value: z.number(),
  expanded: z.number().nullable().describe('expanded uncertainty (k = 2), in the unit of the value'),
  takenAt: instantSchema,
  takenBy: z.string(),
  instrument: z.string().nullable(),
});
export const comparisonSchema = z.object({
  id: idSchema,
  test: z.enum(testKeys),
  subjectId: z.string(),
  subjectLabel: z.string(),
  value: z.string(),
  label: z.string(),
  quantity: z.string(),
  unit: z.string(),
  first: side,
  second: side,
  difference: z.number().describe('second minus first'),
  tolerance: z.number(),
  toleranceVersion: z.string(),
  allowed: z.number().describe('tolerance plus both expanded uncertainties, combined as a root of squares'),
  agrees: z.boolean(),
});
export type Comparison = z.infer<typeof comparisonSchema>;

export const retestSchema = z
  .object({
    ...summaryFields,
    scope: z.array(z.object({ test: z.enum(testKeys), subjectId: z.string() })).nullable(),
    note: z.string().nullable(),
    comparisons: z.array(comparisonSchema).describe('empty until the second visit was submitted'),
    notRepeated: z
      .array(z.object({ test: z.enum(testKeys), subjectLabel: z.string() }))
      .describe('measured first and not measured again'),
  })
  .meta({ id: 'Retest' });
export type Retest = z.infer<typeof retestSchema>;

/** Differences over time in one value of one test, for a chart and the table beside it. */
export const differencesSchema = z
  .object({
    label: z.string(),
    quantity: z.string(),
    unit: z.string(),
    points: z.array(
      z.object({
        retestId: idSchema,
        at: instantSchema,
        address: z.string(),
        rater: person.describe('who measured first'),
        first: z.number(),
        second: z.number(),
        difference: z.number(),
        allowed: z.number(),
        agrees: z.boolean(),
      }),
    ),
    limits: z
      .object({
        count: z.int(),
        mean: z.number(),
        deviation: z.number().nullable(),
        low: z.number().nullable(),
        high: z.number().nullable(),
      })
      .nullable()
      .describe('mean difference and mean ± 1.96 standard deviations'),
  })
  .meta({ id: 'RetestDifferences' });
export type Differences = z.infer<typeof differencesSchema>;

const desk = ['quality', 'administrator'] as const;
const tag = 'Re-tests';

export const retests = {
  list: defineRoute({
    method: 'GET',
    path: '/retests',
    tag,
    summary: 'Re-tests, the one due first on top',
    access: ['office', ...desk],
    query: pageQuery.extend({
      which: z.enum(['open', 'overdue', 'done', 'differs', 'withdrawn']).default('open'),
      raterId: idSchema.optional(),
      search: z.string().trim().max(100).optional(),
    }),
    response: pageOf(retestSummarySchema),
  }),
  order: defineRoute({
    method: 'POST',
    path: '/retests',
    tag,
    summary: 'Order a second measurement by another rater',
    access: desk,
    status: 201,
    body: z.object({ houseId: idSchema, reason: optionalText(500), dueOn: dateSchema, scope }),
    response: retestSummarySchema,
    errors: ['not-found', 'conflict'],
  }),
  differences: defineRoute({
    method: 'GET',
    path: '/retests/differences',
    tag,
    summary: 'Differences between first and second measurement over time, of one test',
    access: desk,
    query: z.object({
      test: z.enum(testKeys),
      raterId: idSchema.optional().describe('only of this rater’s work'),
    }),
    response: z.array(differencesSchema),
  }),
  show: defineRoute({
    method: 'GET',
    path: '/retests/:id',
    tag,
    summary: 'A re-test with both readings beside each other',
    access: desk,
    params: idParams,
    response: retestSchema,
    errors: ['not-found'],
  }),
  withdraw: defineRoute({
    method: 'POST',
    path: '/retests/:id/withdrawal',
    tag,
    summary: 'Withdraw a re-test that was not drawn and has no visit',
    access: desk,
    params: idParams,
    body: z.object({ reason: text(500) }),
    response: retestSummarySchema,
    errors: ['not-found', 'conflict'],
  }),
};
