import * as z from 'zod';
import { instrumentKinds, testKeys } from '@countercheck/measurement';
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
import { runFields } from '../runs.ts';
import { verdictStatuses } from './replay.ts';

/** What was wrong with the instrument; the offset is in its native unit (Pa, cfm, ppm, °F, in. or s). */
export const instrumentErrorSchema = z.discriminatedUnion('kind', [
  z.object({
    kind: z.literal('offset'),
    value: z.number('Enter a number').min(-10_000).max(10_000).describe('shown less true'),
  }),
  z.object({
    kind: z.literal('gain'),
    percent: z
      .number('Enter a number')
      .gt(-100, 'Above −100 %')
      .max(1000)
      .describe('shown = true × (1 + percent / 100)'),
  }),
  z.object({
    kind: z.literal('coefficient'),
    ranges: z
      .array(
        z.object({
          range: text(40),
          factor: z
            .number('Enter a number')
            .positive('Above 0')
            .max(100)
            .describe('flow worked out with the coefficient ÷ actual flow'),
        }),
      )
      .min(1, 'Name at least one range')
      .max(20),
  }),
]);

export const recallBody = z
  .object({
    instrumentId: idSchema,
    from: dateSchema,
    to: dateSchema,
    error: instrumentErrorSchema,
    reason: text(1000).describe('how it was found, with the certificate'),
    note: optionalText(),
  })
  .refine((r) => r.from <= r.to, { path: ['to'], message: 'The last day does not lie before the first' });

export const recallResultSchema = z
  .object({
    houses: z.int().describe('houses with a reading that the recall concerns'),
    readings: z.int(),
    notCorrected: z.int().describe('readings whose error cannot be taken out'),
    flipped: z.int().describe('houses with a verdict that flips'),
    worse: z.int().describe('verdicts that were passed and would not be'),
    better: z.int().describe('verdicts that were not passed and would be'),
    revisit: z.int().describe('houses to measure again'),
    sealed: z.int().describe('released houses among those that flip or have to be measured again'),
    letters: z.int(),
  })
  .meta({ id: 'RecallResult' });
export type RecallResult = z.infer<typeof recallResultSchema>;

export const recallSchema = z
  .object({
    ...runFields,
    instrument: z.object({
      id: idSchema,
      kind: z.enum(instrumentKinds),
      label: z.string(),
      serial: z.string(),
    }),
    from: dateSchema,
    to: dateSchema,
    error: instrumentErrorSchema,
    reason: z.string(),
    note: z.string().nullable(),
    result: recallResultSchema.nullable().describe('null until it is done'),
  })
  .meta({ id: 'Recall' });
export type RecallSheet = z.infer<typeof recallSchema>;

export const recallHouseSchema = z
  .object({
    id: idSchema,
    address: z.string(),
    lot: z.string(),
    stage: houseStageSchema,
    community: z.string(),
    builder: z.object({ id: idSchema, name: z.string() }),
    sealed: z.boolean().describe('the file was released; a new revision is proposed, nothing is changed'),
    revisit: z.boolean(),
    readings: z.array(
      z.object({
        readingId: idSchema,
        test: z.enum(testKeys),
        subjectLabel: z.string(),
        takenOn: dateSchema,
        whyNot: z.string().nullable(),
        results: z.array(
          z.object({
            label: z.string(),
            unit: z.string(),
            before: z.number(),
            after: z.number().nullable(),
          }),
        ),
      }),
    ),
    flips: z.array(
      z.object({
        item: z.string(),
        title: z.string(),
        subjectLabel: z.string(),
        before: z.enum(verdictStatuses),
        after: z.enum(verdictStatuses),
        reasonAfter: z.string(),
        direction: z.enum(['worse', 'better', 'other']),
      }),
    ),
  })
  .meta({ id: 'RecallHouse' });
export type RecallHouse = z.infer<typeof recallHouseSchema>;

export const recallLetterSchema = z
  .object({
    id: idSchema,
    builder: z.object({ id: idSchema, name: z.string() }),
    recipients: z
      .array(z.string())
      .describe("the builder's people who asked for notices; today's until it is sent"),
    houses: z.int(),
    subject: z.string(),
    body: z.string(),
    sentAt: instantSchema.nullable(),
    sentBy: z.string().nullable(),
  })
  .meta({ id: 'RecallLetter' });
export type RecallLetter = z.infer<typeof recallLetterSchema>;

const access = ['quality', 'administrator'] as const;
const tag = 'Recall';

export const recall = {
  list: defineRoute({
    method: 'GET',
    path: '/recalls',
    tag,
    summary: 'Instrument recalls, newest first',
    access,
    query: pageQuery,
    response: pageOf(recallSchema),
  }),
  begin: defineRoute({
    method: 'POST',
    path: '/recalls',
    tag,
    summary: 'Work out what an instrument out of tolerance has done; nothing is changed',
    access,
    status: 201,
    body: recallBody,
    response: recallSchema,
    errors: ['invalid-input', 'not-found'],
  }),
  show: defineRoute({
    method: 'GET',
    path: '/recalls/:id',
    tag,
    summary: 'A recall: how far it is, and what it found',
    access,
    params: idParams,
    response: recallSchema,
    errors: ['not-found'],
  }),
  houses: defineRoute({
    method: 'GET',
    path: '/recalls/:id/houses',
    tag,
    summary: 'Houses concerned, those to measure again first',
    access,
    params: idParams,
    query: pageQuery.extend({ show: z.enum(['revisit', 'flipped', 'sealed']).optional() }),
    response: pageOf(recallHouseSchema),
    errors: ['not-found'],
  }),
  cancel: defineRoute({
    method: 'POST',
    path: '/recalls/:id/cancel',
    tag,
    summary: 'Cancel a recall that waits or is being worked out',
    access,
    params: idParams,
    response: recallSchema,
    errors: ['not-found', 'conflict'],
  }),
  letters: defineRoute({
    method: 'GET',
    path: '/recalls/:id/letters',
    tag,
    summary: 'Letters to the builders concerned, drafted and sent',
    access,
    params: idParams,
    query: pageQuery,
    response: pageOf(recallLetterSchema),
    errors: ['not-found'],
  }),
  sendLetter: defineRoute({
    method: 'POST',
    path: '/recall-letters/:id/send',
    tag,
    summary: 'Send a letter, as drafted or as changed here',
    access: ['quality'],
    params: idParams,
    body: z.object({ subject: text(200), body: text(20_000) }),
    response: okSchema,
    errors: ['not-found', 'conflict'],
  }),
};
