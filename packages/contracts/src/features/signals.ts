import * as z from 'zod';
import { signalKeys } from '@countercheck/signals/keys';
import { dateSchema, idParams, idSchema, instantSchema, pageOf, pageQuery, text } from '../common.ts';
import { defineRoute } from '../route.ts';
import { runFields } from '../runs.ts';

export const chartSubjects = ['rater', 'installer', 'instrument'] as const;
/** What an installer reports and a rater measures again: the items that a control chart can follow. */
export const chartItems = [
  'supply-static',
  'return-static',
  'duct-leakage-total',
  'whole-house-ventilation',
  'kitchen-exhaust',
  'bath-exhaust',
] as const;

const named = z.object({ id: idSchema, name: z.string() });

/** Looks of before this was counted do not have it. */
const houseCount = z.int().optional().describe('houses behind the readings; each counts once');

const biasSchema = z.object({
  id: idSchema,
  name: z.string(),
  readings: z.int(),
  houses: houseCount,
  mean: z.number().describe('difference from the others on houses matched by what was reported, %'),
  estimate: z
    .number()
    .describe('the same, drawn toward the mean of all the more, the fewer houses there are, %'),
  error: z.number().describe('standard error of the estimate, %'),
});
const driftSchema = z.object({
  id: idSchema,
  name: z.string(),
  readings: z.int(),
  houses: houseCount,
  change: z.number().describe('change of its readings over the period, %'),
  accuracy: z.number().describe('stated accuracy, %'),
  p: z.number().describe('probability of such a change by chance, 0 to 1'),
  since: dateSchema.nullable().describe('day from which the readings seem to have moved'),
  recall: z
    .boolean()
    .describe('the change is larger than the stated accuracy: a check on the bench is proposed'),
});

export const signalRunResultSchema = z
  .object({
    raters: z.int(),
    houses: z.int(),
    readings: z.int(),
    tests: z.int().describe('tests with enough readings to say anything'),
    findings: z.int(),
    level: z.number().describe('share of false ones allowed among the findings of this look'),
    raterBias: z.array(biasSchema),
    instrumentDrift: z.array(driftSchema),
  })
  .meta({ id: 'SignalRunResult' });
export type SignalRunResult = z.infer<typeof signalRunResultSchema>;

export const signalRunSchema = z
  .object({
    ...runFields,
    from: dateSchema,
    to: dateSchema,
    result: signalRunResultSchema.nullable().describe('null until it is done'),
  })
  .meta({ id: 'SignalRun' });
export type SignalRun = z.infer<typeof signalRunSchema>;

export const signalFindingStates = ['open', 'ordered', 'dismissed'] as const;
const findingFields = {
  id: idSchema,
  runId: idSchema,
  signal: z.enum(signalKeys),
  rater: named.describe('whose readings were looked at; the finding is on the readings'),
  sentence: z.string(),
  looked: z.int().describe('how many numbers the test looked at'),
  p: z.number().describe('probability of such readings when nothing is wrong, 0 to 1'),
  q: z.number().describe('the same, adjusted for every test of the look, 0 to 1'),
  houses: z.int().describe('houses behind it'),
  state: z.enum(signalFindingStates),
  reason: z.string().nullable().describe('why it was dismissed, or what was ordered for'),
  decidedBy: z.string().nullable(),
  decidedAt: instantSchema.nullable(),
  createdAt: instantSchema,
};
export const signalFindingSummarySchema = z.object(findingFields).meta({ id: 'SignalFindingSummary' });
export type SignalFindingSummary = z.infer<typeof signalFindingSummarySchema>;

const evidenceSchema = z.object({
  kind: z.enum(['bars', 'none']),
  xLabel: z.string(),
  yLabel: z.string(),
  columns: z.array(z.string()),
  rows: z.array(z.array(z.union([z.string(), z.number(), z.null()]))),
});
export const signalFindingSchema = z
  .object({
    ...findingFields,
    behind: z.array(
      z.object({
        id: idSchema,
        address: z.string(),
        lot: z.string(),
        community: z.string(),
        testedOn: dateSchema.nullable(),
      }),
    ),
    evidence: evidenceSchema,
    earlier: z
      .array(
        z.object({
          id: idSchema,
          createdAt: instantSchema,
          state: z.enum(signalFindingStates),
          reason: z.string().nullable(),
        }),
      )
      .describe('what became of the same signal of this rater in earlier looks'),
  })
  .meta({ id: 'SignalFinding' });
export type SignalFinding = z.infer<typeof signalFindingSchema>;

export const controlChartSchema = z
  .object({
    name: z.string(),
    item: z.enum(chartItems),
    points: z.array(
      z.object({
        readingId: idSchema,
        houseId: idSchema,
        address: z.string(),
        at: instantSchema,
        value: z.number().describe('reading less reported, % of reported'),
        range: z.number().nullable().describe('difference from the value before, percentage points'),
        ewma: z.number(),
        high: z.number().describe('cumulative sum of what lies above the mean, percentage points'),
        low: z.number().describe('… and below it'),
      }),
    ),
    limits: z
      .object({
        mean: z.number(),
        sigma: z.number(),
        upper: z.number(),
        lower: z.number(),
        upperRange: z.number(),
        ewmaUpper: z.number(),
        ewmaLower: z.number(),
        decision: z.number().describe('a cumulative sum above it says that the mean has moved'),
      })
      .nullable()
      .describe('null with fewer than three readings, or when all are the same'),
    outside: z.array(z.string()).describe('what lies outside its limits, in words'),
  })
  .meta({ id: 'ControlChart' });
export type ControlChart = z.infer<typeof controlChartSchema>;

export const signalRunBody = z
  .object({ from: dateSchema, to: dateSchema })
  .refine((r) => r.from <= r.to, { path: ['to'], message: 'The last day does not lie before the first' });

export const signalOrderBody = z
  .object({
    reviews: z.array(idSchema).max(60).describe('houses whose files are to be reviewed'),
    retests: z.array(idSchema).max(60).describe('houses that another rater is to measure again'),
    dueOn: dateSchema,
    reason: text(1000),
  })
  .refine(({ reviews, retests }) => reviews.length + retests.length > 0, {
    path: ['reviews'],
    message: 'Choose at least one house',
  });

const access = ['quality', 'administrator'] as const;
const tag = 'Signals';

export const signals = {
  runs: defineRoute({
    method: 'GET',
    path: '/signal-runs',
    tag,
    summary: 'Looks at the readings of all raters over a period, newest first',
    access,
    query: pageQuery,
    response: pageOf(signalRunSchema),
  }),
  begin: defineRoute({
    method: 'POST',
    path: '/signal-runs',
    tag,
    summary: 'Look at the readings of all raters over a period; nothing is changed',
    access,
    status: 201,
    body: signalRunBody,
    response: signalRunSchema,
    errors: ['invalid-input'],
  }),
  run: defineRoute({
    method: 'GET',
    path: '/signal-runs/:id',
    tag,
    summary: 'A look: how far it is, and what it came to',
    access,
    params: idParams,
    response: signalRunSchema,
    errors: ['not-found'],
  }),
  cancel: defineRoute({
    method: 'POST',
    path: '/signal-runs/:id/cancel',
    tag,
    summary: 'Cancel a look that waits or is being worked out',
    access,
    params: idParams,
    response: signalRunSchema,
    errors: ['not-found', 'conflict'],
  }),
  findings: defineRoute({
    method: 'GET',
    path: '/signal-findings',
    tag,
    summary: 'What stood out, the most unusual first; of the newest look that is done unless one is named',
    access,
    query: pageQuery.extend({
      runId: idSchema.optional(),
      state: z.enum(signalFindingStates).optional(),
      raterId: idSchema.optional(),
    }),
    response: pageOf(signalFindingSummarySchema),
  }),
  finding: defineRoute({
    method: 'GET',
    path: '/signal-findings/:id',
    tag,
    summary: 'What stood out, with the houses behind it and what is drawn',
    access,
    params: idParams,
    response: signalFindingSchema,
    errors: ['not-found'],
  }),
  dismiss: defineRoute({
    method: 'POST',
    path: '/signal-findings/:id/dismiss',
    tag,
    summary: 'Lay a finding aside, with the reason',
    access: ['quality'],
    params: idParams,
    body: z.object({ reason: text(1000) }),
    response: signalFindingSchema,
    errors: ['invalid-input', 'not-found', 'conflict'],
  }),
  order: defineRoute({
    method: 'POST',
    path: '/signal-findings/:id/order',
    tag,
    summary: 'Have files behind a finding reviewed, or houses measured again',
    access: ['quality'],
    params: idParams,
    body: signalOrderBody,
    response: signalFindingSchema,
    errors: ['invalid-input', 'not-found', 'conflict'],
  }),
  chart: defineRoute({
    method: 'GET',
    path: '/control-charts',
    tag,
    summary: 'How the readings of a rater, of an installer’s houses or of an instrument run over time',
    access,
    query: z.object({
      subject: z.enum(chartSubjects),
      id: idSchema,
      item: z.enum(chartItems),
      from: dateSchema.optional(),
      to: dateSchema.optional(),
    }),
    response: controlChartSchema,
    errors: ['not-found'],
  }),
};
