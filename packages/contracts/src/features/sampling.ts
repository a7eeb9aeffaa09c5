import * as z from 'zod';
import { drawMethods, drawSizeSchema } from '@countercheck/sampling/method';
import { dateSchema, idParams, idSchema, instantSchema, pageOf, pageQuery, text } from '../common.ts';
import { defineRoute } from '../route.ts';
import { drawPurposes, obligationShareSchema, obligationsSchema, shareSchema } from './obligations.ts';
import { visitKinds } from './visits.ts';

const hash = z.string().regex(/^[0-9a-f]{64}$/);

/** Reasons for which a file weighs more, with the usual points. Common practice, no published source. */
export const weighingReasons = {
  base: { points: 1, words: 'Every file' },
  corrective: { points: 4, words: 'Rater or builder under open corrective action' },
  newRater: { points: 2, words: 'Rater with fewer than 20 files so far' },
  newPair: { points: 2, words: 'No file of this rater at this builder was reviewed yet' },
  failedFirst: { points: 1, words: 'Something failed when it was first measured' },
} as const;
export type WeighingReason = keyof typeof weighingReasons;
const points = z.int().min(0).max(1000);
export const weighingSchema = z.object({
  base: z.int().min(1, 'At least 1: a file without points could never be drawn').max(1000),
  corrective: points,
  newRater: points,
  newPair: points,
  failedFirst: points,
});

export const populationFilterSchema = z
  .object({
    from: dateSchema.nullish().transform((v) => v ?? null),
    to: dateSchema.nullish().transform((v) => v ?? null),
    state: z.enum(['released', 'submitted', 'both']).default('released'),
    raterId: idSchema.nullish().transform((v) => v ?? null),
    builderId: idSchema.nullish().transform((v) => v ?? null),
    kind: z
      .enum(visitKinds)
      .nullish()
      .transform((v) => v ?? null),
    leaveOutDone: z
      .boolean()
      .default(true)
      .describe('files that were reviewed or measured again already, or wait for it'),
  })
  .refine((f) => f.from === null || f.to === null || f.from <= f.to, {
    path: ['to'],
    message: 'The last day does not lie before the first',
  })
  .describe('days of release, or of submission where not released, both included');
export type PopulationFilter = z.output<typeof populationFilterSchema>;

export const drawPlanBody = z
  .object({
    title: text(200),
    purpose: z.enum(drawPurposes),
    method: z.enum(drawMethods),
    size: drawSizeSchema,
    weighing: weighingSchema.nullish().transform((v) => v ?? null),
  })
  .refine(({ method, weighing }) => (method === 'risk-weighted') === (weighing !== null), {
    path: ['weighing'],
    message: 'Points go with the risk-weighted method, and only with that',
  });

export const drawSteps = ['published', 'frozen', 'drawn', 'ordered'] as const;
const who = z.string();
const drawSummary = {
  id: idSchema,
  title: z.string(),
  purpose: z.enum(drawPurposes),
  method: z.enum(drawMethods),
  size: drawSizeSchema,
  step: z.enum(drawSteps),
  commitment: hash,
  committedAt: instantSchema,
  committedBy: who,
  population: z.int().nullable(),
  drawn: z.int().nullable(),
};
export const drawSummarySchema = z.object(drawSummary).meta({ id: 'DrawSummary' });
export type DrawSummary = z.infer<typeof drawSummarySchema>;

const strataRow = z.object({
  rater: z.string(),
  builder: z.string(),
  kind: z.enum(visitKinds),
  population: z.int(),
  sample: z.int(),
});
const estimateSchema = z.object({
  looked: z.int().describe('of those drawn, how many are done'),
  found: z.int(),
  total: z.number().nullable().describe('estimated files of the population; null until all are done'),
  low: z.number().nullable(),
  high: z.number().nullable(),
  basis: z.string(),
});
export const drawSchema = z
  .object({
    ...drawSummary,
    algorithm: z.string(),
    weighing: weighingSchema.nullable(),
    frame: z
      .object({
        filter: populationFilterSchema,
        rater: z.string().nullable(),
        builder: z.string().nullable(),
        count: z.int(),
        hash,
        frozenAt: instantSchema,
        frozenBy: who,
      })
      .nullable(),
    result: z
      .object({
        seed: hash,
        witness: z.string(),
        recordHash: hash,
        drawnAt: instantSchema,
        drawnBy: who,
        strata: z.array(strataRow).nullable(),
      })
      .nullable(),
    orders: z
      .object({
        dueOn: dateSchema,
        ordered: z.int(),
        already: z.int().describe('were under review or on order already'),
        orderedAt: instantSchema,
        orderedBy: who,
      })
      .nullable(),
    estimate: estimateSchema.nullable().describe('files with a finding, or re-tests that differ'),
  })
  .meta({ id: 'Draw' });
export type Draw = z.infer<typeof drawSchema>;

export const drawMemberSchema = z
  .object({
    position: z.int().describe('in the frame, from 1'),
    houseId: idSchema,
    address: z.string(),
    lot: z.string(),
    community: z.string(),
    builder: z.string(),
    rater: z.string(),
    chance: z.number(),
    work: z
      .object({ id: idSchema, state: z.string(), outcome: z.string().nullable() })
      .nullable()
      .describe('the review or re-test that came of it'),
  })
  .meta({ id: 'DrawMember' });
export type DrawMember = z.infer<typeof drawMemberSchema>;

export const checkSchema = z.object({ what: z.string(), ok: z.boolean(), detail: z.string() });

const access = ['quality', 'administrator'] as const;
/** Draws are the quality manager's deeds; the administrator reads them. */
const deeds = ['quality'] as const;
const tag = 'Sampling';

export const sampling = {
  obligations: defineRoute({
    method: 'GET',
    path: '/obligations',
    tag,
    summary: 'What is owed of reviews and re-tests, per rater, in a period',
    access,
    query: z.object({ from: dateSchema.optional(), to: dateSchema.optional() }),
    response: obligationsSchema,
    errors: ['invalid-input'],
  }),
  changeShare: defineRoute({
    method: 'PUT',
    path: '/obligations/shares',
    tag,
    summary: 'Set the company’s own share, with where it comes from',
    access,
    body: z.object({
      kind: z.enum(drawPurposes),
      share: shareSchema,
      minimum: z.int().min(1, 'At least one').max(1000),
      source: text(300),
    }),
    response: obligationShareSchema,
    errors: ['invalid-input'],
  }),
  draws: defineRoute({
    method: 'GET',
    path: '/draws',
    tag,
    summary: 'Draws, newest first',
    access,
    query: pageQuery,
    response: pageOf(drawSummarySchema),
  }),
  publishDraw: defineRoute({
    method: 'POST',
    path: '/draws',
    tag,
    summary: 'First step: publish the commitment to a seed, with method and size',
    access: deeds,
    status: 201,
    body: drawPlanBody,
    response: drawSchema,
    errors: ['invalid-input'],
  }),
  showDraw: defineRoute({
    method: 'GET',
    path: '/draws/:id',
    tag,
    summary: 'A draw and how far it is',
    access,
    params: idParams,
    response: drawSchema,
    errors: ['not-found'],
  }),
  countPopulation: defineRoute({
    method: 'POST',
    path: '/draws/:id/population',
    tag,
    summary: 'How many files a filter would freeze now, and how many would be drawn',
    access: deeds,
    params: idParams,
    body: populationFilterSchema,
    response: z.object({
      files: z.int(),
      raters: z.int(),
      builders: z.int(),
      strata: z.int(),
      wouldDraw: z.int(),
    }),
    errors: ['invalid-input', 'not-found'],
  }),
  freezeFrame: defineRoute({
    method: 'POST',
    path: '/draws/:id/frame',
    tag,
    summary: 'Second step: freeze the population as it is now',
    access: deeds,
    params: idParams,
    body: populationFilterSchema,
    response: drawSchema,
    errors: ['invalid-input', 'not-found', 'draw-step', 'draw-empty'],
  }),
  reveal: defineRoute({
    method: 'POST',
    path: '/draws/:id/reveal',
    tag,
    summary: 'Third step: reveal the seed and draw',
    access: deeds,
    params: idParams,
    body: z.object({
      witness: z
        .string()
        .trim()
        .max(500)
        .default('')
        .describe('something nobody knew before, e.g. dice thrown before a witness'),
    }),
    response: drawSchema,
    errors: ['invalid-input', 'not-found', 'draw-step'],
  }),
  members: defineRoute({
    method: 'GET',
    path: '/draws/:id/files',
    tag,
    summary: 'The files drawn, in the order of the frame',
    access,
    params: idParams,
    query: pageQuery,
    response: pageOf(drawMemberSchema),
    errors: ['not-found'],
  }),
  orderWork: defineRoute({
    method: 'POST',
    path: '/draws/:id/orders',
    tag,
    summary: 'Fourth step: order the reviews or re-tests of what was drawn',
    access: deeds,
    params: idParams,
    body: z.object({ dueOn: dateSchema }),
    response: drawSchema,
    errors: ['invalid-input', 'not-found', 'draw-step', 'conflict'],
  }),
  exportDraw: defineRoute({
    method: 'GET',
    path: '/draws/:id/draw.json',
    tag,
    summary: 'The whole record, from which anybody can repeat the draw',
    access,
    params: idParams,
    response: z.null(),
    form: 'bytes',
    errors: ['not-found', 'draw-step'],
  }),
  repeatHere: defineRoute({
    method: 'POST',
    path: '/draws/:id/repeat',
    tag,
    summary: 'Repeat the draw from its record and say whether it is the same',
    access,
    params: idParams,
    response: z.object({ checks: z.array(checkSchema) }),
    errors: ['not-found', 'draw-step'],
  }),
};
