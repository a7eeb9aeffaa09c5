import * as z from 'zod';
import { quantities, type QuantityKind } from '@countercheck/measurement';
import { sourceSchema } from '@countercheck/rules';

const kinds = Object.keys(quantities) as [QuantityKind, ...QuantityKind[]];
const toleranceSchema = z.strictObject({
  quantity: z.enum(kinds),
  share: z.number().min(0).max(1).describe('of the first result'),
  amount: z.number().min(0).describe('in the stored unit of the quantity'),
  source: sourceSchema,
});
/** How far two raters may lie apart in one quantity: the larger of a share and an amount. */
export type Tolerance = z.infer<typeof toleranceSchema>;

export const tolerancesSchema = z
  .strictObject({
    key: z.literal('re-test'),
    version: z.string().regex(/^\d{4}\.\d+$/, 'a year and a count, as in 2026.1'),
    title: z.string().trim().min(3),
    effective: z.iso.date(),
    quantities: z.array(toleranceSchema).min(1),
  })
  .superRefine((list, context) => {
    const named = list.quantities.map(({ quantity }) => quantity);
    named.forEach((each, i) => {
      if (named.indexOf(each) !== i) context.addIssue({ code: 'custom', message: `"${each}" stands twice` });
    });
  });
/** The tolerances of a re-test, as one dated version says them. */
export type Tolerances = z.infer<typeof tolerancesSchema>;
