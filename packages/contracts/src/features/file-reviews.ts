import * as z from 'zod';
import { checkSchema } from '@countercheck/quality';
import {
  dateSchema,
  idParams,
  idSchema,
  instantSchema,
  okSchema,
  optionalText,
  pageOf,
  pageQuery,
  text,
} from '../common.ts';
import { defineRoute } from '../route.ts';
import { houseStageSchema } from './houses.ts';
import { severities } from './review.ts';

export const qualitySources = ['draw', 'signal', 'manual', 'corrective'] as const;
export const fileReviewStates = ['open', 'done', 'appealed', 'withdrawn'] as const;
export const reviewMarks = ['ok', 'finding', 'not_applicable'] as const;
export const fileFindingStates = ['open', 'answered', 'appealed', 'settled', 'struck'] as const;
export const appealDecisions = ['upheld', 'changed', 'struck'] as const;

const person = z.object({ id: idSchema, name: z.string() });
/** The house that a quality record is about. */
export const qualityHouseSchema = z.object({
  id: idSchema,
  address: z.string(),
  lot: z.string(),
  stage: houseStageSchema,
  community: z.string(),
  builder: person,
});

const summaryFields = {
  id: idSchema,
  house: qualityHouseSchema,
  revision: z.int(),
  rater: person.describe('whose work it is'),
  source: z.enum(qualitySources),
  reason: z.string().nullable(),
  dueOn: dateSchema,
  overdue: z.boolean(),
  state: z.enum(fileReviewStates),
  reviewer: person.nullable(),
  outcome: z.enum(['clean', 'findings']).nullable(),
  orderedBy: z.string(),
  orderedAt: instantSchema,
  startedAt: instantSchema.nullable(),
  doneAt: instantSchema.nullable(),
  note: z.string().nullable(),
  timesReopened: z.int(),
  openFindings: z.int().describe('findings that are neither settled nor struck'),
};
export const fileReviewSummarySchema = z.object(summaryFields).meta({ id: 'FileReviewSummary' });
export type FileReviewSummary = z.infer<typeof fileReviewSummarySchema>;

export const fileFindingSchema = z
  .object({
    id: idSchema,
    fileReviewId: idSchema,
    step: z.string().describe('reading:<id> or check:<key>'),
    check: z.string(),
    checkTitle: z.string(),
    automatic: z.boolean(),
    severity: z.enum(severities),
    text: z.string(),
    responsible: person,
    dueOn: dateSchema,
    overdue: z.boolean(),
    state: z.enum(fileFindingStates),
    raisedBy: z.string(),
    raisedAt: instantSchema,
    answer: z.string().nullable(),
    answeredBy: z.string().nullable(),
    answeredAt: instantSchema.nullable(),
    appeal: z.string().nullable(),
    appealedAt: instantSchema.nullable(),
    decision: z.enum(appealDecisions).nullable(),
    decisionReason: z.string().nullable(),
    decidedBy: z.string().nullable(),
    decidedAt: instantSchema.nullable(),
    settledBy: z.string().nullable(),
    settledAt: instantSchema.nullable(),
    settledNote: z.string().nullable(),
  })
  .meta({ id: 'FileFinding' });
export type FileFinding = z.infer<typeof fileFindingSchema>;

/** A finding in the list of those that somebody has to do something about. */
export const listedFindingSchema = fileFindingSchema
  .extend({ house: qualityHouseSchema, rater: person })
  .meta({ id: 'ListedFileFinding' });
export type ListedFinding = z.infer<typeof listedFindingSchema>;

export const reviewStepSchema = z.object({
  step: z.string(),
  kind: z.enum(['reading', 'check']),
  readingId: idSchema.nullable(),
  title: z.string(),
  subject: z.string().nullable(),
  mark: z.enum(reviewMarks).nullable(),
  markedAt: instantSchema.nullable(),
});
export type ReviewStep = z.infer<typeof reviewStepSchema>;

export const fileReviewSchema = z
  .object({
    ...summaryFields,
    ownWork: z.boolean().describe('the one who asks measured in the house and cannot review it'),
    mine: z.boolean(),
    checklist: z.object({
      version: z.string(),
      title: z.string(),
      source: z.string(),
      reading: z.array(checkSchema),
      file: z.array(checkSchema),
      automatic: z.array(checkSchema),
    }),
    steps: z.array(reviewStepSchema).describe('in the order in which they are looked at'),
    findings: z.array(fileFindingSchema),
    automatic: z
      .array(z.object({ check: z.string(), step: z.string(), text: z.string() }))
      .describe(
        'what the computation finds now; each becomes a finding when the review is taken or finished',
      ),
  })
  .meta({ id: 'FileReview' });
export type FileReview = z.infer<typeof fileReviewSchema>;

const desk = ['quality', 'administrator'] as const;
const reviewers = ['quality'] as const;
const tag = 'Quality review';
const step = z
  .string()
  .regex(/^(reading:[0-9a-f-]{36}|check:[a-z-]+)$/, 'Not a step of a review')
  .max(60);
const reviewErrors = ['not-found', 'conflict', 'own-work'] as const;

export const fileReviews = {
  list: defineRoute({
    method: 'GET',
    path: '/file-reviews',
    tag,
    summary: 'File reviews, the one due first on top',
    access: desk,
    query: pageQuery.extend({
      which: z.enum(['mine', 'unassigned', 'overdue', 'open', 'appealed', 'done']).default('open'),
      raterId: idSchema.optional(),
      search: z.string().trim().max(100).optional(),
    }),
    response: pageOf(fileReviewSummarySchema),
  }),
  order: defineRoute({
    method: 'POST',
    path: '/file-reviews',
    tag,
    summary: 'Order the review of a submitted or released file',
    access: desk,
    status: 201,
    body: z.object({ houseId: idSchema, reason: optionalText(500), dueOn: dateSchema }),
    response: fileReviewSummarySchema,
    errors: ['not-found', 'conflict'],
  }),
  show: defineRoute({
    method: 'GET',
    path: '/file-reviews/:id',
    tag,
    summary: 'A review: its checklist, steps, marks and findings',
    access: desk,
    params: idParams,
    response: fileReviewSchema,
    errors: ['not-found'],
  }),
  take: defineRoute({
    method: 'POST',
    path: '/file-reviews/:id/reviewer',
    tag,
    summary: 'Take a review; nobody takes one of a file that he measured in',
    access: reviewers,
    params: idParams,
    response: fileReviewSchema,
    errors: reviewErrors,
  }),
  putBack: defineRoute({
    method: 'DELETE',
    path: '/file-reviews/:id/reviewer',
    tag,
    summary: 'Put a review back for somebody else; its marks and findings stay',
    access: reviewers,
    params: idParams,
    response: fileReviewSummarySchema,
    errors: reviewErrors,
  }),
  mark: defineRoute({
    method: 'PUT',
    path: '/file-reviews/:id/marks',
    tag,
    summary: 'Say how one reading or one line of the checklist was found',
    access: reviewers,
    params: idParams,
    body: z.object({ step, mark: z.enum(reviewMarks) }),
    response: okSchema,
    errors: reviewErrors,
  }),
  find: defineRoute({
    method: 'POST',
    path: '/file-reviews/:id/findings',
    tag,
    summary: 'Note a finding; its step is marked with it',
    access: reviewers,
    status: 201,
    params: idParams,
    body: z.object({
      step,
      check: z.string().max(60),
      severity: z.enum(severities),
      text: text(2000),
      responsibleId: idSchema.optional().describe('the rater of the file unless told'),
      dueOn: dateSchema,
    }),
    response: fileFindingSchema,
    errors: reviewErrors,
  }),
  changeFinding: defineRoute({
    method: 'PATCH',
    path: '/file-findings/:id',
    tag,
    summary: 'Change a finding before the review is finished',
    access: reviewers,
    params: idParams,
    body: z
      .object({
        severity: z.enum(severities),
        text: text(2000),
        responsibleId: idSchema,
        dueOn: dateSchema,
        struck: z.literal(true).describe('it was none; an automatic finding cannot be struck here'),
      })
      .partial(),
    response: fileFindingSchema,
    errors: reviewErrors,
  }),
  finish: defineRoute({
    method: 'POST',
    path: '/file-reviews/:id/finish',
    tag,
    summary: 'Finish the review; it is clean, or its findings go to whoever is responsible',
    access: reviewers,
    params: idParams,
    body: z.object({ note: optionalText() }),
    response: fileReviewSummarySchema,
    errors: [...reviewErrors, 'review-not-complete'],
  }),
  reopen: defineRoute({
    method: 'POST',
    path: '/file-reviews/:id/reopening',
    tag,
    summary: 'Open a finished review again',
    access: desk,
    params: idParams,
    body: z.object({ reason: text(500) }),
    response: fileReviewSummarySchema,
    errors: reviewErrors,
  }),
  withdraw: defineRoute({
    method: 'POST',
    path: '/file-reviews/:id/withdrawal',
    tag,
    summary: 'Withdraw a review that was not drawn and not finished',
    access: desk,
    params: idParams,
    body: z.object({ reason: text(500) }),
    response: fileReviewSummarySchema,
    errors: reviewErrors,
  }),
  findings: defineRoute({
    method: 'GET',
    path: '/file-findings',
    tag,
    summary: 'Findings of finished reviews; a rater gets those on his own files',
    access: ['rater', 'office', 'quality', 'administrator'],
    query: pageQuery.extend({
      state: z.enum(fileFindingStates).optional(),
      raterId: idSchema.optional(),
      overdue: z.stringbool().optional(),
    }),
    response: pageOf(listedFindingSchema),
  }),
  answer: defineRoute({
    method: 'POST',
    path: '/file-findings/:id/answer',
    tag,
    summary: 'Answer a finding: what was done about it',
    access: ['rater'],
    params: idParams,
    body: z.object({ answer: text(2000) }),
    response: fileFindingSchema,
    errors: ['not-found', 'conflict'],
  }),
  settle: defineRoute({
    method: 'POST',
    path: '/file-findings/:id/settlement',
    tag,
    summary: 'Accept the answer to a finding; never by the one who answered',
    access: reviewers,
    params: idParams,
    body: z.object({ note: optionalText(500) }),
    response: fileFindingSchema,
    errors: reviewErrors,
  }),
  appeal: defineRoute({
    method: 'POST',
    path: '/file-findings/:id/appeal',
    tag,
    summary: 'Appeal against a finding; only the rater whose file it is',
    access: ['rater'],
    params: idParams,
    body: z.object({ appeal: text(2000) }),
    response: fileFindingSchema,
    errors: ['not-found', 'conflict'],
  }),
  decide: defineRoute({
    method: 'POST',
    path: '/file-findings/:id/decision',
    tag,
    summary: 'Decide an appeal; never by the one who found it',
    access: desk,
    params: idParams,
    body: z
      .object({
        decision: z.enum(appealDecisions),
        severity: z.enum(severities).optional(),
        reason: text(2000),
      })
      .refine((v) => (v.decision === 'changed') === (v.severity !== undefined), {
        path: ['severity'],
        message: 'A changed finding gets another severity, the others keep theirs',
      }),
    response: fileFindingSchema,
    errors: reviewErrors,
  }),
};
