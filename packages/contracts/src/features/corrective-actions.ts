import * as z from 'zod';
import { dateSchema, idParams, idSchema, instantSchema, pageOf, pageQuery, text } from '../common.ts';
import { defineRoute } from '../route.ts';

const person = z.object({ id: idSchema, name: z.string() });
const share = z
  .number('Enter a number')
  .min(0, 'Not below 0 %')
  .max(1, 'At most 100 %')
  .nullish()
  .transform((v) => v ?? null)
  .describe('0–1; null = the ordinary share');

export const holdSchema = z
  .object({
    id: idSchema,
    rater: person,
    from: instantSchema,
    reason: z.string(),
    correctiveActionId: idSchema.nullable(),
    placedBy: z.string(),
    placedAt: instantSchema,
    liftedAt: instantSchema.nullable(),
    liftedBy: z.string().nullable(),
    liftReason: z.string().nullable(),
    booked: z.int().describe('visits still booked for him that begin while the hold lasts'),
  })
  .meta({ id: 'RaterHold' });
export type RaterHold = z.infer<typeof holdSchema>;

/** What whoever books must know of a hold. */
export const bookingHoldSchema = z
  .object({ raterId: idSchema, from: instantSchema, reason: z.string() })
  .meta({ id: 'BookingHold' });

const summaryFields = {
  id: idSchema,
  subject: z.enum(['rater', 'builder']),
  about: person.describe('the rater or the builder'),
  cause: z.string(),
  state: z.enum(['open', 'closed']),
  openedBy: z.string(),
  openedAt: instantSchema,
  raisedFileShare: z.number().nullable(),
  raisedFieldShare: z.number().nullable(),
  cleanFilesNeeded: z.int(),
  cleanFiles: z.int().describe('clean file reviews in a row, finished since it began'),
  restoredAt: instantSchema.nullable().describe('when the clean files were reached'),
  effectivenessDueOn: dateSchema,
  effectivenessOverdue: z.boolean(),
  effective: z.boolean().nullable(),
  held: z.boolean().describe('the rater is held on account of it'),
};
export const correctiveSummarySchema = z.object(summaryFields).meta({ id: 'CorrectiveActionSummary' });
export type CorrectiveSummary = z.infer<typeof correctiveSummarySchema>;

export const correctiveSchema = z
  .object({
    ...summaryFields,
    action: z.string(),
    effectivenessNote: z.string().nullable(),
    effectivenessBy: z.string().nullable(),
    effectivenessAt: instantSchema.nullable(),
    closedAt: instantSchema.nullable(),
    closedBy: z.string().nullable(),
    closeReason: z.string().nullable(),
    evidence: z.array(
      z.object({
        id: idSchema,
        text: z.string(),
        file: z
          .object({
            name: z.string(),
            mediaType: z.string(),
            size: z.int().describe('bytes'),
            sha256: z.string().describe('of the file as it was sent; the event log has it too'),
          })
          .nullable(),
        addedBy: z.string(),
        addedAt: instantSchema,
      }),
    ),
    holds: z.array(holdSchema),
    orders: z
      .array(
        z.object({
          kind: z.enum(['file-review', 'field-retest']),
          id: idSchema,
          address: z.string(),
          dueOn: dateSchema,
          state: z.enum(['open', 'ordered', 'booked', 'done', 'appealed', 'withdrawn']),
          outcome: z.enum(['clean', 'findings', 'agrees', 'differs']).nullable(),
        }),
      )
      .describe('reviews and re-tests ordered on account of it, by its raised shares or by hand'),
    reviews: z
      .array(
        z.object({
          id: idSchema,
          address: z.string(),
          outcome: z.enum(['clean', 'findings']),
          doneAt: instantSchema,
        }),
      )
      .describe('file reviews finished since it began, newest first'),
  })
  .meta({ id: 'CorrectiveAction' });
export type CorrectiveAction = z.infer<typeof correctiveSchema>;

export const openCorrectiveBody = z
  .object({
    subject: z.enum(['rater', 'builder']),
    raterId: idSchema.nullish().transform((v) => v ?? null),
    builderId: idSchema.nullish().transform((v) => v ?? null),
    cause: text(2000),
    action: text(2000),
    raisedFileShare: share,
    raisedFieldShare: share,
    cleanFilesNeeded: z.int('Enter a whole number').min(1, 'At least one').max(1000),
    effectivenessDueOn: dateSchema,
    holdFrom: instantSchema
      .nullish()
      .transform((v) => v ?? null)
      .describe('holds the rater from then on until the clean files are reached'),
  })
  .refine((v) => (v.subject === 'rater' ? v.raterId !== null : v.builderId !== null), {
    path: ['raterId'],
    message: 'Say whom it is about',
  })
  .refine((v) => v.subject === 'rater' || v.holdFrom === null, {
    path: ['holdFrom'],
    message: 'Only a rater can be held',
  });

const desk = ['quality', 'administrator'] as const;
const tag = 'Corrective actions';

export const correctiveActions = {
  list: defineRoute({
    method: 'GET',
    path: '/corrective-actions',
    tag,
    summary: 'Corrective actions, the effectiveness check due first on top',
    access: desk,
    query: pageQuery.extend({ state: z.enum(['open', 'closed']).optional(), raterId: idSchema.optional() }),
    response: pageOf(correctiveSummarySchema),
  }),
  open: defineRoute({
    method: 'POST',
    path: '/corrective-actions',
    tag,
    summary: 'Open a corrective action on a rater or a builder',
    access: desk,
    status: 201,
    body: openCorrectiveBody,
    response: correctiveSchema,
    errors: ['not-found', 'conflict'],
  }),
  show: defineRoute({
    method: 'GET',
    path: '/corrective-actions/:id',
    tag,
    summary: 'A corrective action: cause, action, evidence, clean files, holds',
    access: desk,
    params: idParams,
    response: correctiveSchema,
    errors: ['not-found'],
  }),
  change: defineRoute({
    method: 'PATCH',
    path: '/corrective-actions/:id',
    tag,
    summary: 'Change what an open action asks for',
    access: desk,
    params: idParams,
    body: z
      .object({
        action: text(2000),
        raisedFileShare: share,
        raisedFieldShare: share,
        cleanFilesNeeded: z.int('Enter a whole number').min(1, 'At least one').max(1000),
        effectivenessDueOn: dateSchema,
      })
      .partial(),
    response: correctiveSchema,
    errors: ['not-found', 'conflict'],
  }),
  addEvidence: defineRoute({
    method: 'POST',
    path: '/corrective-actions/:id/evidence',
    tag,
    summary: 'Add what shows that the action was taken, in words',
    access: desk,
    status: 201,
    params: idParams,
    body: z.object({ text: text(2000) }),
    response: correctiveSchema,
    errors: ['not-found', 'conflict'],
  }),
  addFile: defineRoute({
    method: 'POST',
    path: '/corrective-actions/:id/files',
    tag,
    summary: 'Add a photo or a PDF as evidence (multipart: file and these fields)',
    access: desk,
    status: 201,
    form: 'multipart',
    params: idParams,
    body: z.object({ text: text(2000) }),
    response: correctiveSchema,
    errors: ['not-found', 'conflict', 'file-too-large', 'file-type-refused'],
  }),
  file: defineRoute({
    method: 'GET',
    path: '/corrective-evidence/:id/file',
    tag,
    summary: 'The photo or PDF of a piece of evidence, as it was sent',
    access: desk,
    form: 'bytes',
    params: idParams,
    response: z.unknown(),
    errors: ['not-found'],
  }),
  checkEffectiveness: defineRoute({
    method: 'POST',
    path: '/corrective-actions/:id/effectiveness',
    tag,
    summary: 'Say whether the action has helped; one that has not gets a new date',
    access: desk,
    params: idParams,
    body: z
      .object({
        effective: z.boolean(),
        note: text(2000),
        nextCheckOn: dateSchema.nullish().transform((v) => v ?? null),
      })
      .refine((v) => v.effective || v.nextCheckOn !== null, {
        path: ['nextCheckOn'],
        message: 'Say when it is looked at again',
      }),
    response: correctiveSchema,
    errors: ['not-found', 'conflict'],
  }),
  close: defineRoute({
    method: 'POST',
    path: '/corrective-actions/:id/closing',
    tag,
    summary: 'Close an action that was found effective; a hold on account of it ends',
    access: desk,
    params: idParams,
    body: z.object({ reason: text(500) }),
    response: correctiveSchema,
    errors: ['not-found', 'conflict'],
  }),
  bookingHolds: defineRoute({
    method: 'GET',
    path: '/holds/in-force',
    tag,
    summary: 'Raters who cannot be booked, and since when',
    access: ['office', ...desk],
    response: z.array(bookingHoldSchema),
  }),
  holds: defineRoute({
    method: 'GET',
    path: '/holds',
    tag,
    summary: 'Holds on raters, those in force first',
    access: desk,
    query: pageQuery.extend({ raterId: idSchema.optional(), inForce: z.stringbool().optional() }),
    response: pageOf(holdSchema),
  }),
  hold: defineRoute({
    method: 'POST',
    path: '/holds',
    tag,
    summary: 'Hold a rater: he is booked for nothing that begins from then on',
    access: desk,
    status: 201,
    body: z.object({
      raterId: idSchema,
      from: instantSchema,
      reason: text(500),
      correctiveActionId: idSchema.nullish().transform((v) => v ?? null),
    }),
    response: holdSchema,
    errors: ['not-found', 'conflict'],
  }),
  lift: defineRoute({
    method: 'POST',
    path: '/holds/:id/lifting',
    tag,
    summary: 'Lift a hold, with a reason',
    access: desk,
    params: idParams,
    body: z.object({ reason: text(500) }),
    response: holdSchema,
    errors: ['not-found', 'conflict'],
  }),
};
