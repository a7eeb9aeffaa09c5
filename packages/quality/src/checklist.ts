import * as z from 'zod';
import { sourceSchema } from '@countercheck/rules';

const key = z.string().regex(/^[a-z][a-z-]*$/, 'small letters and hyphens only');
export const checkSchema = z.strictObject({
  key,
  title: z.string().trim().min(3),
  ask: z.string().trim().min(10),
  severity: z.enum(['remark', 'minor', 'major']),
  days: z.int().min(1).max(365).describe('days to put it right'),
});
/** One line of a checklist: what is asked, and what a finding at it is proposed to weigh. */
export type Check = z.infer<typeof checkSchema>;

/** What the computation looks at by itself; the service knows how to do each. */
export const automaticChecks = ['recomputed', 'calibration', 'seal'] as const;
export type AutomaticCheck = (typeof automaticChecks)[number];

export const checklistSchema = z
  .strictObject({
    key,
    version: z.string().regex(/^\d{4}\.\d+$/, 'a year and a count, as in 2026.1'),
    title: z.string().trim().min(3),
    effective: z.iso.date(),
    source: sourceSchema,
    reading: z.array(checkSchema).min(1),
    file: z.array(checkSchema).min(1),
    automatic: z.array(checkSchema.extend({ key: z.enum(automaticChecks) })),
  })
  .superRefine((list, context) => {
    const keys = [...list.reading, ...list.file, ...list.automatic].map((each) => each.key);
    keys.forEach((each, i) => {
      if (keys.indexOf(each) !== i) context.addIssue({ code: 'custom', message: `"${each}" stands twice` });
    });
    for (const each of automaticChecks)
      if (!list.automatic.some((check) => check.key === each))
        context.addIssue({ code: 'custom', path: ['automatic'], message: `"${each}" is missing` });
  });
/** The checklist of a file review, as one dated version says it. */
export type Checklist = z.infer<typeof checklistSchema>;

/** Looks a check up by its key; undefined when the version does not have it. */
export function checkOf(list: Checklist, wanted: string): Check | undefined {
  return [...list.reading, ...list.file, ...list.automatic].find((each) => each.key === wanted);
}
