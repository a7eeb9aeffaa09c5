import * as z from 'zod';
import { dateSchema, idParams, idSchema, instantSchema } from '../common.ts';
import { roles, staff } from '../roles.ts';
import { defineRoute } from '../route.ts';
import { houseStageSchema } from './houses.ts';

export const healthSchema = z
  .object({
    process: z.object({ ok: z.boolean(), uptimeSeconds: z.number(), version: z.string() }),
    database: z.object({ ok: z.boolean(), latencyMs: z.number().nullable(), migrations: z.int().nullable() }),
  })
  .meta({ id: 'Health' });

export const ruleSetSchema = z
  .object({
    id: idSchema,
    key: z.string(),
    version: z.string(),
    title: z.string(),
    effectiveOn: dateSchema,
    hash: z.string(),
    publishedAt: instantSchema,
    offered: z.boolean(),
    houses: z.int(),
  })
  .meta({ id: 'RuleSet' });

export const overviewSchema = z
  .object({
    stages: z.array(z.object({ stage: houseStageSchema, houses: z.int() })),
    visitsToday: z.int(),
    openFailedItems: z.int(),
    reinspectionsAsked: z.int(),
    instrumentsDue: z.int(),
    waitingForReview: z.int(),
  })
  .meta({ id: 'Overview' });

export const service = {
  health: defineRoute({
    method: 'GET',
    path: '/health',
    tag: 'Service',
    summary: 'Process and database, told apart; 503 when the database does not answer',
    access: ['anyone'],
    response: healthSchema.describe('the same shape with 503'),
  }),
  overview: defineRoute({
    method: 'GET',
    path: '/overview',
    tag: 'Service',
    summary: "Counts for the first page of one's role",
    access: roles,
    response: overviewSchema,
  }),
  ruleSets: defineRoute({
    method: 'GET',
    path: '/rule-sets',
    tag: 'Rule sets',
    summary: 'Published rule sets',
    access: staff,
    response: z.array(ruleSetSchema),
  }),
  ruleSet: defineRoute({
    method: 'GET',
    path: '/rule-sets/:id',
    tag: 'Rule sets',
    summary: 'One rule set with its items, limits and sources',
    access: staff,
    params: idParams,
    response: z.object({ ...ruleSetSchema.shape, body: z.unknown() }),
    errors: ['not-found'],
  }),
  offerRuleSet: defineRoute({
    method: 'PATCH',
    path: '/rule-sets/:id',
    tag: 'Rule sets',
    summary: 'Offer a rule set at intake, or no longer',
    access: ['administrator'],
    params: idParams,
    body: z.object({ offered: z.boolean() }),
    response: ruleSetSchema,
    errors: ['not-found', 'conflict'],
  }),
  photo: defineRoute({
    method: 'GET',
    path: '/photos/:id',
    tag: 'Photos',
    summary: 'A photo, as stored',
    access: roles,
    form: 'bytes',
    params: idParams,
    response: z.any(),
    errors: ['not-found'],
  }),
  thumbnail: defineRoute({
    method: 'GET',
    path: '/photos/:id/thumbnail',
    tag: 'Photos',
    summary: 'A small version of a photo',
    access: roles,
    form: 'bytes',
    params: idParams,
    response: z.any(),
    errors: ['not-found'],
  }),
};
