import { subjectKinds, testKeys } from '@countercheck/measurement';
import * as z from 'zod';
import { trades } from '../types.ts';
import { criterionSchema } from './criterion.ts';
import { limitSchema } from './limit.ts';
import { sourceSchema } from './source.ts';

export const keySchema = z
  .string()
  .regex(/^[a-z][a-z0-9]*(-[a-z0-9]+)*$/, 'a key is lower-case words joined by hyphens')
  .meta({ id: 'RuleKey' });

const words = z.string().trim().min(3);
const criteria = z.array(criterionSchema).min(1);

const optionSchema = z
  .strictObject({
    option: keySchema,
    title: words,
    when: criteria.optional().meta({ description: 'The option exists only where all of these hold' }),
    require: criteria,
    source: sourceSchema.optional(),
  })
  .meta({ description: 'One way to pass: all of its criteria hold' });

const exemptionSchema = z
  .strictObject({
    exemption: keySchema,
    title: words,
    require: criteria,
    keepsOpen: z
      .boolean()
      .optional()
      .meta({ description: 'false: a failed item fails at once, without waiting for this exemption' }),
    source: sourceSchema.optional(),
  })
  .meta({ description: 'The item need not be met where all of these hold' });

const stopWorkSchema = z
  .strictObject({ title: words, require: criteria, source: sourceSchema })
  .meta({ description: 'A threshold at which people act first; also read from readings that do not count' });

/** One thing that is verified, on one kind of subject. */
export const itemSchema = z.strictObject({
  item: keySchema,
  title: words,
  stage: z.enum(['rough', 'final']),
  subject: z.enum(subjectKinds),
  tests: z.array(z.enum(testKeys)).min(1),
  whenNone: z
    .strictObject({ status: z.enum(['waiting', 'not-applicable']), words })
    .optional()
    .meta({
      description: 'What to say of a house that lists no such subject; left out: the item is not listed',
    }),
  appliesWhen: criteria.optional().meta({ description: 'All must hold' }),
  appliesWhenAny: criteria.optional().meta({ description: 'One must hold' }),
  doesNotApply: words.optional().meta({ description: 'The reason given when the item does not apply' }),
  limit: limitSchema.optional(),
  options: z.array(optionSchema).min(1),
  exemptions: z.array(exemptionSchema).optional(),
  stopWork: z.array(stopWorkSchema).optional(),
  source: sourceSchema,
  note: words.optional(),
  correction: words,
  trade: z.enum(trades),
  cautions: z.array(words),
  safety: z.boolean(),
});

export type Item = z.infer<typeof itemSchema>;
