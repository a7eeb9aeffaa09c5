import * as z from 'zod';
import { limitSchema } from './limit.ts';

const quantity = z
  .string()
  .min(1)
  .meta({ description: 'A name from the catalogue, e.g. measured.leakageAt25' });
const magnitude = z.boolean().optional().meta({ description: 'Compare without the sign' });
const ownLimit = limitSchema.optional().meta({ description: "Left out: the item's limit" });

const atMost = z.strictObject({ check: z.literal('at-most'), quantity, limit: ownLimit, magnitude });
const atLeast = z.strictObject({ check: z.literal('at-least'), quantity, limit: ownLimit, magnitude });
const above = z
  .strictObject({ check: z.literal('above'), quantity, limit: ownLimit, magnitude })
  .meta({ description: 'Strictly more than; for stop-work thresholds' });
const between = z.strictObject({
  check: z.literal('between'),
  quantity,
  low: limitSchema,
  high: limitSchema,
  magnitude,
});
const atMostShareOf = z.strictObject({
  check: z.literal('at-most-share-of'),
  quantity,
  of: quantity,
  limit: ownLimit,
  magnitude,
});
const shareBetween = z.strictObject({
  check: z.literal('share-between'),
  quantity,
  of: quantity,
  low: limitSchema,
  high: limitSchema,
  magnitude,
});
const balancedWithin = z.strictObject({
  check: z.literal('balanced-within'),
  quantity,
  with: quantity,
  limit: ownLimit,
});
const is = z.strictObject({
  check: z.literal('is'),
  quantity,
  value: z.union([z.string(), z.number(), z.boolean()]),
});
const oneOf = z.strictObject({
  check: z.literal('one-of'),
  quantity,
  values: z.array(z.union([z.string(), z.number()])).min(1),
});
const recorded = z.strictObject({ check: z.literal('recorded'), quantity });

/** The closed vocabulary of criteria; a rule set can say nothing else. */
export const criterionSchema = z
  .discriminatedUnion('check', [
    atMost,
    atLeast,
    above,
    between,
    atMostShareOf,
    shareBetween,
    balancedWithin,
    is,
    oneOf,
    recorded,
  ])
  .meta({ id: 'RuleCriterion' });

export type Criterion = z.infer<typeof criterionSchema>;
