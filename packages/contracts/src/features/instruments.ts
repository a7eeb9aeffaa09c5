import * as z from 'zod';
import { instrumentKinds } from '@countercheck/measurement';
import { dateSchema, idParams, idSchema, optionalText, pageOf, pageQuery, text } from '../common.ts';
import { defineRoute } from '../route.ts';

export const rangeSchema = z
  .object({
    range: text(40),
    c: z.number().positive('Above 0').max(10_000),
    n: z.number().min(0.3).max(1.2),
    minPa: z.number().min(0).max(1000),
    maxPa: z.number().positive().max(2000),
  })
  .refine((r) => r.minPa < r.maxPa, {
    path: ['maxPa'],
    message: 'The highest pressure lies above the lowest',
  });
export const calibrationBody = z
  .object({
    calibratedOn: dateSchema,
    dueOn: dateSchema,
    certificate: optionalText(120),
    ranges: z.array(rangeSchema).max(20).default([]),
  })
  .refine((c) => c.calibratedOn < c.dueOn, {
    path: ['dueOn'],
    message: 'The due date lies after the calibration',
  });
export const calibrationSchema = z
  .object({
    id: idSchema,
    calibratedOn: dateSchema,
    dueOn: dateSchema,
    certificate: z.string().nullable(),
    ranges: z.array(
      z.object({ range: z.string(), c: z.number(), n: z.number(), minPa: z.number(), maxPa: z.number() }),
    ),
  })
  .meta({ id: 'Calibration' });

export const instrumentBody = z.object({
  kind: z.enum(instrumentKinds),
  label: text(80),
  serial: text(60),
  accuracyPercent: z.number().min(0).max(50),
  accuracyAbsolute: z.number().min(0).max(1000),
  resolution: z
    .number()
    .positive()
    .max(100)
    .nullish()
    .transform((v) => v ?? null),
  note: optionalText(),
});
export const instrumentSchema = z
  .object({
    id: idSchema,
    kind: z.enum(instrumentKinds),
    label: z.string(),
    serial: z.string(),
    accuracyPercent: z.number(),
    accuracyAbsolute: z.number(),
    resolution: z.number().nullable(),
    active: z.boolean(),
    note: z.string().nullable(),
    calibrations: z.array(calibrationSchema).describe('newest first'),
    inCalibration: z.boolean().describe('today'),
  })
  .meta({ id: 'Instrument' });
export type Instrument = z.infer<typeof instrumentSchema>;

const keepers = ['office', 'quality', 'administrator'] as const;
const readers = ['office', 'rater', 'quality', 'administrator'] as const;
const tag = 'Instruments';

export const instruments = {
  list: defineRoute({
    method: 'GET',
    path: '/instruments',
    tag,
    summary: 'Instruments with their calibrations',
    access: readers,
    query: pageQuery.extend({
      kind: z.enum(instrumentKinds).optional(),
      search: z.string().trim().max(100).optional(),
    }),
    response: pageOf(instrumentSchema),
  }),
  register: defineRoute({
    method: 'POST',
    path: '/instruments',
    tag,
    summary: 'Register an instrument',
    access: keepers,
    status: 201,
    body: instrumentBody,
    response: instrumentSchema,
    errors: ['already-exists'],
  }),
  change: defineRoute({
    method: 'PATCH',
    path: '/instruments/:id',
    tag,
    summary: 'Change an instrument',
    access: keepers,
    params: idParams,
    body: instrumentBody.omit({ kind: true }).extend({ active: z.boolean() }).partial(),
    response: instrumentSchema,
    errors: ['not-found', 'already-exists'],
  }),
  calibrate: defineRoute({
    method: 'POST',
    path: '/instruments/:id/calibrations',
    tag,
    summary: 'Record a calibration',
    access: keepers,
    status: 201,
    params: idParams,
    body: calibrationBody,
    response: instrumentSchema,
    errors: ['not-found', 'already-exists'],
  }),
};
