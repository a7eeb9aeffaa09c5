import * as z from 'zod';
import { dateSchema, idSchema, instantSchema } from '../common.ts';

export const drawPurposes = ['file-review', 'field-retest'] as const;
export type DrawPurpose = (typeof drawPurposes)[number];
const sourceMarks = ['seen', 'from memory', 'computed', 'common practice, no published source'] as const;
/** Where a number comes from, and whether somebody saw that. */
export const sourceMark = { mark: z.enum(sourceMarks), source: z.string() };

/** Hundredths of a percent, so that a share of files is rounded up without doubt. */
export const shareSchema = z.int('Enter a share').min(1, 'More than 0 %').max(10_000, 'At most 100 %');

export const obligationShareSchema = z.object({
  kind: z.enum(drawPurposes),
  share: shareSchema.describe('hundredths of a percent'),
  minimum: z.int(),
  usual: z.boolean().describe('the one that the service comes with'),
  ...sourceMark,
  changedBy: z.string().nullable(),
  changedAt: instantSchema.nullable(),
});
export type ObligationShareRow = z.infer<typeof obligationShareSchema>;

export const meterSchema = z.object({
  share: z.int().describe('in force, hundredths of a percent'),
  raised: z.boolean().describe('by a corrective action'),
  due: z.int(),
  done: z.int(),
  behind: z.int(),
  open: z.int().describe('ordered and not done'),
  overdue: z.int().describe('ordered, and the day by which has passed'),
  expectedFiles: z.int(),
  dueByEnd: z.int(),
  stillToDo: z.int(),
  neededPerMonth: z.number().nullable(),
  donePerMonth: z.number(),
  shortAtEnd: z.int(),
});
export type Meter = z.infer<typeof meterSchema>;
export const obligationsSchema = z
  .object({
    from: dateSchema,
    to: dateSchema,
    today: dateSchema,
    shares: z.array(obligationShareSchema),
    raters: z.array(
      z.object({
        id: idSchema,
        name: z.string(),
        active: z.boolean(),
        files: z.int().describe('submitted or released in the period'),
        fileReviews: meterSchema,
        fieldRetests: meterSchema,
      }),
    ),
  })
  .meta({ id: 'Obligations' });
export type Obligations = z.infer<typeof obligationsSchema>;
