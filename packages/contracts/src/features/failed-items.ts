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
import { photoSchema } from './fieldwork.ts';

export const failedItemStates = ['open', 'corrected', 'reinspection_asked', 'closed'] as const;
export const failedItemSchema = z
  .object({
    id: idSchema,
    item: z.string(),
    title: z.string(),
    subjectLabel: z.string(),
    trade: z.string(),
    state: z.enum(failedItemStates),
    reason: z.string().describe('by how much it failed, in words'),
    needed: z.string().nullable(),
    inSi: z
      .object({ reason: z.string(), needed: z.string().nullable() })
      .nullish()
      .describe('the same in SI units; null where the verdict of these words is not kept any more'),
    correction: z.string(),
    cautions: z.array(z.string()),
    timesFailed: z.int(),
    openedAt: instantSchema,
    closedAt: instantSchema.nullable(),
    house: z.object({
      id: idSchema,
      address: z.string(),
      lot: z.string(),
      community: z.string(),
      builder: z.object({ id: idSchema, name: z.string() }),
    }),
    entries: z.array(
      z.object({ id: idSchema, kind: z.string(), text: z.string(), byName: z.string(), at: instantSchema }),
    ),
    photos: z.array(photoSchema),
  })
  .meta({ id: 'FailedItem' });
export type FailedItem = z.infer<typeof failedItemSchema>;

export const reinspectionRequestSchema = z
  .object({
    id: idSchema,
    state: z.enum(['asked', 'booked', 'done', 'withdrawn']),
    note: z.string().nullable(),
    earliestOn: dateSchema.nullable(),
    askedByName: z.string(),
    askedAt: instantSchema,
    visitId: idSchema.nullable(),
    house: z.object({ id: idSchema, address: z.string(), lot: z.string(), builder: z.string() }),
    items: z.int().describe('failed items still open'),
  })
  .meta({ id: 'ReinspectionRequest' });
export type ReinspectionRequest = z.infer<typeof reinspectionRequestSchema>;

const readers = ['office', 'rater', 'quality', 'administrator', 'builder'] as const;
const tag = 'Failed items';

export const failedItems = {
  list: defineRoute({
    method: 'GET',
    path: '/failed-items',
    tag,
    summary: 'Failed items, filtered; a builder gets its own only',
    access: readers,
    query: pageQuery.extend({
      state: z.enum([...failedItemStates, 'not_closed']).optional(),
      houseId: idSchema.optional(),
      builderId: idSchema.optional(),
      trade: z.string().max(60).optional(),
    }),
    response: pageOf(failedItemSchema),
  }),
  show: defineRoute({
    method: 'GET',
    path: '/failed-items/:id',
    tag,
    summary: 'One failed item with its history',
    access: readers,
    params: idParams,
    response: failedItemSchema,
    errors: ['not-found'],
  }),
  correct: defineRoute({
    method: 'POST',
    path: '/failed-items/:id/corrections',
    tag,
    summary: 'Record what was corrected',
    access: ['builder', 'office'],
    params: idParams,
    body: z.object({ text: text(2000) }),
    response: failedItemSchema,
    errors: ['not-found', 'conflict'],
  }),
  addPhoto: defineRoute({
    method: 'POST',
    path: '/failed-items/:id/photos',
    tag,
    summary: 'Attach a photo of the correction (multipart)',
    access: ['builder', 'office'],
    status: 201,
    form: 'multipart',
    params: idParams,
    body: z.object({
      id: idSchema,
      caption: z.string().trim().max(300).optional(),
      takenAt: instantSchema.optional(),
    }),
    response: photoSchema,
    errors: ['not-found', 'file-too-large', 'file-type-refused', 'same-key-other-body'],
  }),
  askReinspection: defineRoute({
    method: 'POST',
    path: '/houses/:id/reinspection-requests',
    tag,
    summary: 'Ask for a reinspection',
    access: ['builder', 'office'],
    status: 201,
    params: idParams,
    body: z.object({ note: optionalText(), earliestOn: dateSchema.nullish().transform((v) => v ?? null) }),
    response: reinspectionRequestSchema,
    errors: ['not-found', 'conflict'],
  }),
  requests: defineRoute({
    method: 'GET',
    path: '/reinspection-requests',
    tag,
    summary: 'Reinspections asked for',
    access: readers,
    query: pageQuery.extend({
      state: z.enum(['asked', 'booked', 'done', 'withdrawn']).optional(),
      houseId: idSchema.optional(),
    }),
    response: pageOf(reinspectionRequestSchema),
  }),
};
