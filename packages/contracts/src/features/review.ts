import * as z from 'zod';
import { idParams, idSchema, instantSchema, optionalText, pageOf, pageQuery, text } from '../common.ts';
import { defineRoute } from '../route.ts';
import { eventSchema } from './administration.ts';
import { failedItemSchema } from './failed-items.ts';
import { photoSchema, readingSchema, verdictSchema } from './fieldwork.ts';
import { houseDetailSchema, houseSummarySchema } from './houses.ts';
import { submissionSchema } from './installers.ts';
import { visitSchema } from './visits.ts';

export const severities = ['remark', 'minor', 'major'] as const;
export const findingSchema = z.object({
  id: idSchema,
  item: z.string().nullable(),
  subjectId: z.string().nullable(),
  severity: z.enum(severities),
  text: z.string(),
  answer: z.string().nullable(),
  answeredAt: instantSchema.nullable(),
});
export const reviewSchema = z
  .object({
    id: idSchema,
    revision: z.int(),
    reviewer: z.string(),
    outcome: z.enum(['returned', 'released']),
    note: z.string().nullable(),
    at: instantSchema,
    findings: z.array(findingSchema),
  })
  .meta({ id: 'Review' });

export const releaseSchema = z
  .object({
    id: idSchema,
    houseId: idSchema,
    revision: z.int(),
    releasedAt: instantSchema,
    releasedBy: z.string(),
    hash: z.string().describe('SHA-256 of the canonical JSON of the content'),
  })
  .meta({ id: 'Release' });
export type Release = z.infer<typeof releaseSchema>;

/** The whole file, with every computation done again from the raw readings. */
export const wholeFileSchema = z
  .object({
    house: houseDetailSchema,
    visits: z.array(visitSchema),
    submissions: z.array(submissionSchema),
    readings: z.array(readingSchema),
    photos: z.array(photoSchema),
    verdicts: z.array(verdictSchema).describe('computed again, now'),
    measured: z.array(
      z.object({
        readingId: idSchema,
        values: z.array(
          z.object({
            key: z.string(),
            label: z.string(),
            quantity: z.string(),
            value: z.number(),
            unit: z.string(),
            standardUncertainty: z.number().nullable(),
            expandedUncertainty: z.number().nullable(),
            coverageFactor: z.number().nullable(),
          }),
        ),
        steps: z.array(
          z.object({ label: z.string(), working: z.string(), value: z.number(), unit: z.string() }),
        ),
        remarks: z.array(z.string()),
        counts: z.boolean(),
        whyNot: z.string().nullable(),
      }),
    ),
    differences: z
      .array(z.object({ item: z.string(), subjectId: z.string(), stored: z.string(), again: z.string() }))
      .describe('where the stored verdict differs from the one computed again; each is a finding by itself'),
    failedItems: z.array(failedItemSchema),
    reviews: z.array(reviewSchema),
    releases: z.array(releaseSchema),
    events: z.array(eventSchema),
    releasable: z.boolean(),
    holding: z.array(z.string()).describe('what holds the release, in words'),
    ownWork: z.boolean(),
  })
  .meta({ id: 'WholeFile' });
export type WholeFile = z.infer<typeof wholeFileSchema>;

export const sealedFileSchema = z
  .object({
    ...releaseSchema.shape,
    content: z.unknown(),
    recomputedHash: z.string(),
    intact: z.boolean().describe('content, record in the log and photos are those that were sealed'),
    problems: z.array(z.string()).describe('what is not as it was sealed, in words; empty when intact'),
  })
  .meta({ id: 'SealedFile' });

/** What the builder receives: the result without the company's inner workings. */
export const resultSchema = z
  .object({
    house: z.object({ id: idSchema, address: z.string(), lot: z.string(), community: z.string() }),
    releaseId: idSchema,
    revision: z.int(),
    releasedAt: instantSchema,
    releasedBy: z.string(),
    hash: z.string(),
    ruleSet: z.object({ key: z.string(), version: z.string(), title: z.string() }),
    items: z.array(
      z.object({
        item: z.string(),
        title: z.string(),
        subjectLabel: z.string(),
        status: z.string(),
        reason: z.string(),
      }),
    ),
    cautions: z.array(z.string()),
  })
  .meta({ id: 'ReleasedResult' });

const desk = ['quality'] as const;
const tag = 'Review';

export const review = {
  queue: defineRoute({
    method: 'GET',
    path: '/reviews/queue',
    tag,
    summary: 'Files waiting for the quality manager, oldest first',
    access: ['quality', 'administrator'],
    query: pageQuery.extend({ search: z.string().trim().max(100).optional() }),
    response: pageOf(houseSummarySchema),
  }),
  file: defineRoute({
    method: 'GET',
    path: '/houses/:id/file',
    tag,
    summary: 'The whole file, computed again from the raw readings',
    access: ['quality', 'administrator', 'office'],
    params: idParams,
    response: wholeFileSchema,
    errors: ['not-found'],
  }),
  reviews: defineRoute({
    method: 'GET',
    path: '/houses/:id/reviews',
    tag,
    summary: 'Reviews of a house with their findings, newest first; a rater sees those of houses he measured',
    access: ['rater', 'office', 'quality', 'administrator'],
    params: idParams,
    response: z.array(reviewSchema),
    errors: ['not-found'],
  }),
  giveBack: defineRoute({
    method: 'POST',
    path: '/houses/:id/return',
    tag,
    summary: 'Return the file with findings',
    access: desk,
    params: idParams,
    body: z.object({
      note: optionalText(),
      findings: z
        .array(
          z.object({
            item: z
              .string()
              .max(80)
              .nullish()
              .transform((v) => v ?? null),
            subjectId: z
              .string()
              .max(80)
              .nullish()
              .transform((v) => v ?? null),
            severity: z.enum(severities),
            text: text(2000),
          }),
        )
        .min(1, 'Say at least one finding'),
    }),
    response: reviewSchema,
    errors: ['not-found', 'conflict', 'own-work', 'file-sealed'],
  }),
  answer: defineRoute({
    method: 'POST',
    path: '/findings/:id/answer',
    tag,
    summary: 'Answer a finding',
    access: ['rater', 'office'],
    params: idParams,
    body: z.object({ answer: text(2000) }),
    response: findingSchema,
    errors: ['not-found', 'file-sealed'],
  }),
  sendBack: defineRoute({
    method: 'POST',
    path: '/houses/:id/review-request',
    tag,
    summary: 'Put a returned file before the quality manager again',
    access: ['rater', 'office'],
    params: idParams,
    body: z.object({ note: optionalText() }),
    response: houseSummarySchema,
    errors: ['not-found', 'conflict'],
  }),
  release: defineRoute({
    method: 'POST',
    path: '/houses/:id/release',
    tag,
    summary: 'Release and seal the file; the builder gets the result',
    access: desk,
    status: 201,
    params: idParams,
    body: z.object({ note: optionalText() }),
    response: releaseSchema,
    errors: ['not-found', 'not-releasable', 'own-work', 'conflict', 'file-sealed'],
  }),
  openAgain: defineRoute({
    method: 'POST',
    path: '/houses/:id/revisions',
    tag,
    summary: 'Open a released file again as a new revision',
    access: ['quality', 'administrator'],
    status: 201,
    params: idParams,
    body: z.object({ reason: text(1000) }),
    response: houseSummarySchema,
    errors: ['not-found', 'conflict'],
  }),
  sealed: defineRoute({
    method: 'GET',
    path: '/releases/:id',
    tag,
    summary: 'A sealed file and whether its hash still holds',
    access: ['quality', 'administrator', 'office'],
    params: idParams,
    response: sealedFileSchema,
    errors: ['not-found'],
  }),
  result: defineRoute({
    method: 'GET',
    path: '/houses/:id/result',
    tag,
    summary: 'The released result, as the builder gets it',
    access: ['builder', 'office', 'quality', 'administrator'],
    params: idParams,
    response: resultSchema,
    errors: ['not-found'],
  }),
};
