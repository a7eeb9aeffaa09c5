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
import { houseStageSchema } from './houses.ts';

export const visitKinds = ['rough', 'final', 'reinspection', 'quality'] as const;
export const visitStates = ['booked', 'in_progress', 'submitted', 'not_ready', 'cancelled'] as const;
/** Why a house was not ready when the rater came. */
export const notReadyKinds = [
  ...(['no_power', 'air_handler_off', 'registers_missing', 'appliances_not_set', 'figures_missing'] as const),
  ...(['no_access', 'work_going_on', 'unsafe', 'other'] as const),
] as const;

/** How the rater gets into the house. */
export const houseAccesses = ['contact', 'key', 'open'] as const;
/** What has to be so when the rater comes. */
export const readinessKinds = ['power', 'air_handler', 'registers', 'appliances', 'corrections'] as const;

export const visitSchema = z
  .object({
    id: idSchema,
    kind: z.enum(visitKinds),
    state: z.enum(visitStates),
    startsAt: instantSchema,
    endsAt: instantSchema,
    rater: z.object({ id: idSchema, name: z.string() }),
    house: z.object({
      id: idSchema,
      address: z.string(),
      lot: z.string(),
      stage: houseStageSchema,
      community: z.string(),
      builder: z.object({ id: idSchema, name: z.string() }),
    }),
    scope: z
      .array(z.object({ item: z.string(), subjectId: z.string() }))
      .nullable()
      .describe('what comes up at a reinspection; null = everything of the stage'),
    note: z.string().nullable(),
    cause: z.string().nullable(),
    notReadyKind: z.enum(notReadyKinds).nullable(),
    startedAt: instantSchema.nullable(),
    submittedAt: instantSchema.nullable(),
  })
  .meta({ id: 'Visit' });
export type Visit = z.infer<typeof visitSchema>;

const times = { startsAt: instantSchema, endsAt: instantSchema };
const ordered = (v: { startsAt?: string | undefined; endsAt?: string | undefined }) => {
  if (!v.startsAt || !v.endsAt) return true;
  const hours = (Date.parse(v.endsAt) - Date.parse(v.startsAt)) / 3_600_000;
  return hours > 0 && hours <= 14;
};
const orderedMessage = { path: ['endsAt'], message: 'The end lies after the start, at most 14 hours' };

export const bookBody = z
  .object({
    houseId: idSchema,
    raterId: idSchema,
    kind: z.enum(visitKinds),
    ...times,
    note: optionalText(),
    reinspectionRequestId: idSchema.nullish().transform((v) => v ?? null),
    visitRequestId: idSchema
      .nullish()
      .transform((v) => v ?? null)
      .describe('the request that it answers; the open one of this kind when left out'),
  })
  .refine(ordered, orderedMessage);

const keepers = ['office', 'administrator'] as const;
const readers = ['office', 'rater', 'quality', 'administrator'] as const;
const tag = 'Visits';

export const visits = {
  list: defineRoute({
    method: 'GET',
    path: '/visits',
    tag,
    summary: 'Visits, filtered; a rater gets his own, a builder those of its houses',
    access: [...readers, 'builder'],
    query: pageQuery.extend({
      from: dateSchema.optional().describe("first day, in the company's time zone"),
      to: dateSchema.optional(),
      raterId: idSchema.optional(),
      houseId: idSchema.optional(),
      state: z.enum(visitStates).optional(),
    }),
    response: pageOf(visitSchema),
  }),
  show: defineRoute({
    method: 'GET',
    path: '/visits/:id',
    tag,
    summary: 'One visit',
    access: readers,
    params: idParams,
    response: visitSchema,
    errors: ['not-found'],
  }),
  raters: defineRoute({
    method: 'GET',
    path: '/raters',
    tag,
    summary: 'Raters that can be booked',
    access: readers,
    response: z.array(z.object({ id: idSchema, name: z.string() })),
  }),
  book: defineRoute({
    method: 'POST',
    path: '/visits',
    tag,
    summary: 'Book a visit for a rater',
    access: keepers,
    status: 201,
    body: bookBody,
    response: visitSchema,
    errors: [
      ...(['rater-double-booked', 'rater-held', 'second-rater-needed'] as const),
      ...(['not-found', 'file-sealed', 'conflict'] as const),
    ],
  }),
  move: defineRoute({
    method: 'PATCH',
    path: '/visits/:id',
    tag,
    summary: 'Move a booked visit or give it to another rater',
    access: keepers,
    params: idParams,
    body: z
      .object({ raterId: idSchema, ...times, note: optionalText() })
      .partial()
      .refine(ordered, orderedMessage),
    response: visitSchema,
    errors: [
      ...(['rater-double-booked', 'rater-held', 'second-rater-needed'] as const),
      ...(['not-found', 'visit-closed', 'conflict'] as const),
    ],
  }),
  cancel: defineRoute({
    method: 'POST',
    path: '/visits/:id/cancellation',
    tag,
    summary: 'Cancel a visit that has not begun',
    access: keepers,
    params: idParams,
    body: z.object({ cause: text(500) }),
    response: visitSchema,
    errors: ['not-found', 'visit-closed'],
  }),
};
