import * as z from 'zod';
import { dateSchema, idParams, idSchema, optionalText, pageOf, pageQuery } from '../common.ts';
import { defineRoute } from '../route.ts';
import { runFields } from '../runs.ts';
import { houseStages, houseStageSchema } from './houses.ts';

export const verdictStatuses = ['pass', 'fail', 'exempt', 'not-applicable', 'waiting'] as const;
export const replayFilterSchema = z
  .object({
    from: dateSchema.nullish().transform((v) => v ?? null),
    to: dateSchema.nullish().transform((v) => v ?? null),
    builderId: idSchema.nullish().transform((v) => v ?? null),
    communityId: idSchema.nullish().transform((v) => v ?? null),
    stage: z
      .enum(houseStages)
      .nullish()
      .transform((v) => v ?? null),
    ruleSetId: idSchema
      .nullish()
      .transform((v) => v ?? null)
      .describe('only houses that are judged by this set today'),
  })
  .refine((f) => f.from === null || f.to === null || f.from <= f.to, {
    path: ['to'],
    message: 'The last day does not lie before the first',
  })
  .describe('from and to are the first and last day of the newest begun visit, at the house');
export const replayBody = z.object({
  ruleSetId: idSchema.describe('the version to apply'),
  filter: replayFilterSchema,
  note: optionalText(500),
});

const counted = z.object({
  houses: z.int(),
  changed: z.int().describe('verdicts that would be another'),
  more: z.int().describe('houses that would need a reinspection and did not'),
  fewer: z.int().describe('houses that needed a reinspection and would not'),
});
const named = z.object({ id: idSchema.nullable(), name: z.string(), ...counted.shape });
/** What an item's verdict would become; null = the set does not ask for the item. */
export const changeSchema = z.object({
  item: z.string(),
  title: z.string(),
  before: z.enum(verdictStatuses).nullable(),
  after: z.enum(verdictStatuses).nullable(),
  count: z.int(),
});
export const replayResultSchema = z
  .object({
    ...counted.shape,
    affected: z.int().describe('houses with at least one verdict that would change'),
    reinspectionsBefore: z.int(),
    reinspectionsAfter: z.int(),
    unreadable: z.int().describe('houses whose facts could not be read; they are in no other number'),
    items: z.array(changeSchema).describe('the most frequent first'),
    builders: z.array(named),
    raters: z.array(named).describe('by the rater of the newest begun visit'),
    milliseconds: z.int(),
  })
  .meta({ id: 'ReplayResult' });
export type ReplayResult = z.infer<typeof replayResultSchema>;

const setName = z.object({ id: idSchema, key: z.string(), version: z.string(), title: z.string() });
const summaryFields = {
  ...runFields,
  ruleSet: setName,
  note: z.string().nullable(),
  affected: z.int().nullable(),
  reinspections: z.int().nullable().describe('more (or, below zero, fewer) than there were'),
};
export const replaySummarySchema = z.object(summaryFields).meta({ id: 'ReplaySummary' });
export type ReplaySummary = z.infer<typeof replaySummarySchema>;
export const replaySchema = z
  .object({
    ...summaryFields,
    filter: z.object({
      from: dateSchema.nullable(),
      to: dateSchema.nullable(),
      builder: z.object({ id: idSchema, name: z.string() }).nullable(),
      community: z.object({ id: idSchema, name: z.string() }).nullable(),
      stage: houseStageSchema.nullable(),
      ruleSet: setName.nullable(),
    }),
    result: replayResultSchema.nullable().describe('null until it is done'),
  })
  .meta({ id: 'Replay' });
export type Replay = z.infer<typeof replaySchema>;

export const replayHouseSchema = z
  .object({
    id: idSchema,
    address: z.string(),
    lot: z.string(),
    stage: houseStageSchema,
    community: z.string(),
    builder: z.string(),
    rater: z.string().nullable(),
    reinspection: z.int().describe('1 = one more, −1 = one fewer, 0 = as it was'),
    changes: z.array(
      z.object({
        item: z.string(),
        title: z.string(),
        subjectLabel: z.string(),
        before: z.enum(verdictStatuses).nullable(),
        after: z.enum(verdictStatuses).nullable(),
      }),
    ),
  })
  .meta({ id: 'ReplayHouse' });
export type ReplayHouse = z.infer<typeof replayHouseSchema>;

const access = ['quality', 'administrator'] as const;
const tag = 'Replay';

export const replay = {
  list: defineRoute({
    method: 'GET',
    path: '/replays',
    tag,
    summary: 'Replays, newest first',
    access,
    query: pageQuery,
    response: pageOf(replaySummarySchema),
  }),
  ask: defineRoute({
    method: 'POST',
    path: '/replays',
    tag,
    summary: 'Apply a rule set to past houses, without touching them',
    access,
    status: 201,
    body: replayBody,
    response: replaySchema,
    errors: ['invalid-input', 'not-found'],
  }),
  show: defineRoute({
    method: 'GET',
    path: '/replays/:id',
    tag,
    summary: 'A replay: how far it is, and what it found',
    access,
    params: idParams,
    response: replaySchema,
    errors: ['not-found'],
  }),
  houses: defineRoute({
    method: 'GET',
    path: '/replays/:id/houses',
    tag,
    summary: 'Houses with a verdict that would change',
    access,
    params: idParams,
    query: pageQuery.extend({
      reinspection: z.enum(['more', 'fewer', 'same']).optional(),
      item: z.string().max(100).optional(),
      builderId: idSchema.optional(),
    }),
    response: pageOf(replayHouseSchema),
    errors: ['not-found'],
  }),
  cancel: defineRoute({
    method: 'POST',
    path: '/replays/:id/cancel',
    tag,
    summary: 'Cancel a replay that waits or runs',
    access,
    params: idParams,
    response: replaySchema,
    errors: ['not-found', 'conflict'],
  }),
  again: defineRoute({
    method: 'POST',
    path: '/replays/:id/again',
    tag,
    summary: 'Ask for the same replay once more, as a new one',
    access,
    status: 201,
    params: idParams,
    response: replaySchema,
    errors: ['not-found', 'conflict'],
  }),
};
