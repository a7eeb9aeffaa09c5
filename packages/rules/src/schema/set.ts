import * as z from 'zod';
import { itemSchema, keySchema } from './item.ts';

const versionSchema = z
  .string()
  .regex(/^[0-9]+(\.[0-9]+)*$/, 'a version is numbers joined by dots')
  .meta({ id: 'RuleVersion' });

const header = {
  key: keySchema,
  version: versionSchema,
  title: z.string().trim().min(3),
  description: z.string().trim().min(3),
  effective: z.iso.date().meta({ description: 'First day on which houses may be judged by it' }),
  published: z.boolean(),
};

/** A complete rule set as plain data, with everything it inherited already in it. */
export const ruleSetSchema = z.strictObject({
  ...header,
  inherits: z.strictObject({ key: keySchema, version: versionSchema }).optional(),
  items: z.array(itemSchema).min(1),
});
export type RuleSet = z.infer<typeof ruleSetSchema>;

/** What stands in `set.yaml`: the header, and which items the set has in which order. */
export const setFileSchema = z.strictObject({
  ...header,
  inherits: z.strictObject({ key: keySchema, version: versionSchema }).optional(),
  items: z
    .array(keySchema)
    .optional()
    .meta({ description: 'Order of the items; an heir names only new ones' }),
  without: z.array(keySchema).optional().meta({ description: 'Inherited items that this set leaves out' }),
});
export type SetFile = z.infer<typeof setFileSchema>;

/** An item file of an inheriting set that changes some fields of the inherited item and keeps the rest. */
export const itemChangesSchema = z.strictObject({
  item: keySchema,
  changes: itemSchema.omit({ item: true }).partial(),
});
export type ItemChanges = z.infer<typeof itemChangesSchema>;
