import * as z from 'zod';
import { idParams, idSchema, instantSchema, pageOf, pageQuery, text } from '../common.ts';
import { defineRoute } from '../route.ts';
import { sourceMark } from './obligations.ts';

const access = ['quality', 'administrator'] as const;
/** Batches are the quality manager's deeds; the administrator reads them. */
const deeds = ['quality'] as const;
const tag = 'Sampling';

const rule = z.object({ value: z.int(), words: z.string(), ...sourceMark });
export const batchRulesSchema = z
  .object({ key: z.string(), title: z.string(), rules: z.array(rule.extend({ name: z.string() })) })
  .meta({ id: 'BatchRules' });
export type BatchRulesRow = z.infer<typeof batchRulesSchema>;
const batchHouse = z.object({ id: idSchema, address: z.string(), lot: z.string() });
const result = z.enum(['passed', 'failed', 'corrected']);
const batchSummary = {
  id: idSchema,
  title: z.string(),
  builder: z.string(),
  community: z.string(),
  plan: z.string().nullable(),
  trades: z.string(),
  rules: z.string(),
  phase: z.enum(['qualifying', 'sampling', 'returning']),
  houses: z.int(),
  tested: z.int(),
  sets: z.int(),
  setsFailed: z.int(),
  openedAt: instantSchema,
};
export const batchSummarySchema = z.object(batchSummary).meta({ id: 'BatchSummary' });
export type BatchSummary = z.infer<typeof batchSummarySchema>;
export const batchSchema = z
  .object({
    ...batchSummary,
    openedBy: z.string(),
    ruleSet: batchRulesSchema,
    inRow: z.int(),
    needed: z.object({ inRow: z.int(), tested: z.int() }),
    testedInPhase: z.int(),
    whyNoSet: z.string().nullable().describe('null = a set can be opened'),
    singles: z.array(z.object({ house: batchHouse, result })),
    setList: z.array(
      z.object({
        number: z.int(),
        state: z.enum(['testing', 'widened', 'passed', 'failed']),
        houses: z.array(z.object({ house: batchHouse, result: result.nullable(), chosen: z.boolean() })),
        history: z.array(z.string()),
        seed: z.string().describe('the order of testing follows from it and the ids'),
      }),
    ),
    events: z.array(z.object({ sequence: z.int(), at: instantSchema, by: z.string(), words: z.string() })),
    candidates: z
      .array(batchHouse.extend({ readiness: z.enum(['passed', 'failed', 'not-tested', 'before']) }))
      .describe('houses of the same builder, community and plan that are in no batch yet'),
  })
  .meta({ id: 'Batch' });
export type Batch = z.infer<typeof batchSchema>;

export const batches = {
  rules: defineRoute({
    method: 'GET',
    path: '/batch-rules',
    tag,
    summary: 'The rule sets of sampled verification, each rule with its source',
    access,
    response: z.array(batchRulesSchema),
  }),
  list: defineRoute({
    method: 'GET',
    path: '/batches',
    tag,
    summary: 'Batches, newest first',
    access,
    query: pageQuery,
    response: pageOf(batchSummarySchema),
  }),
  open: defineRoute({
    method: 'POST',
    path: '/batches',
    tag,
    summary: 'Open a batch of like houses by the same trades',
    access: deeds,
    status: 201,
    body: z.object({
      title: text(200),
      communityId: idSchema,
      planId: idSchema.nullish().transform((v) => v ?? null),
      trades: text(300),
      rulesKey: text(60),
    }),
    response: batchSchema,
    errors: ['invalid-input', 'not-found'],
  }),
  show: defineRoute({
    method: 'GET',
    path: '/batches/:id',
    tag,
    summary: 'A batch with every set’s history',
    access,
    params: idParams,
    response: batchSchema,
    errors: ['not-found'],
  }),
  takeResult: defineRoute({
    method: 'POST',
    path: '/batches/:id/results',
    tag,
    summary: 'Take over what a house’s own file says: passed, failed, or corrected',
    access: deeds,
    params: idParams,
    body: z.object({ houseId: idSchema }),
    response: batchSchema,
    errors: ['not-found', 'batch-rule', 'conflict'],
  }),
  openSet: defineRoute({
    method: 'POST',
    path: '/batches/:id/sets',
    tag,
    summary: 'Open a set; the houses to be tested are chosen at random',
    access: deeds,
    params: idParams,
    body: z.object({ houseIds: z.array(idSchema).min(1, 'Choose at least one house').max(100) }),
    response: batchSchema,
    errors: ['not-found', 'batch-rule', 'conflict'],
  }),
};
