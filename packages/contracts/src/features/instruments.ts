import * as z from 'zod';
import { instrumentKinds, tableProblem } from '@countercheck/measurement';
import { dateSchema, idParams, idSchema, optionalText, pageOf, pageQuery, text } from '../common.ts';
import { defineRoute } from '../route.ts';

const tableSchema = z.array(
  z.object({
    pressure: z.number().max(2000).describe('of the device, Pa'),
    flow: z.number().max(20_000).describe('cfm'),
  }),
);
/** A range of a flow device: by coefficients, flow = c · P^n, or by its maker's table, never by both. */
const rangeSchema = z
  .object({
    range: text(40),
    c: z
      .number()
      .positive('Above 0')
      .max(10_000)
      .nullish()
      .transform((v) => v ?? null)
      .describe('cfm per Pa^n'),
    n: z
      .number()
      .min(0.3)
      .max(1.2)
      .nullish()
      .transform((v) => v ?? null),
    minPa: z.number().min(0).max(1000),
    maxPa: z.number().positive().max(2000),
    table: tableSchema
      .max(100)
      .nullish()
      .transform((v) => v ?? null)
      .describe('rows of the maker’s table; c and n are left out then'),
  })
  .refine((r) => r.minPa < r.maxPa, {
    path: ['maxPa'],
    message: 'The highest pressure lies above the lowest',
  })
  .superRefine((r, context) => {
    const refuse = (at: 'c' | 'n' | 'table', message: string) =>
      context.addIssue({ code: 'custom', path: [at], message, input: r[at] });
    for (const key of ['c', 'n'] as const) {
      if (!r.table && r[key] === null) refuse(key, 'Please fill this in, or enter the maker’s table');
      if (r.table && r[key] !== null) refuse(key, 'Leave this out: the flows come from the table');
    }
    const wrong = r.table && tableProblem(r.table, r);
    if (wrong) refuse('table', wrong.message);
  });
/** A range as it was recorded; records from before there were tables have none. */
export const calibratedRangeSchema = z.object({
  range: z.string(),
  c: z.number().nullable(),
  n: z.number().nullable(),
  minPa: z.number(),
  maxPa: z.number(),
  table: tableSchema.nullish().describe('read instead of c and n'),
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
    ranges: z.array(calibratedRangeSchema),
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
  show: defineRoute({
    method: 'GET',
    path: '/instruments/:id',
    tag,
    summary: 'One instrument with its calibrations',
    access: readers,
    params: idParams,
    response: instrumentSchema,
    errors: ['not-found'],
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
