import { quantities, type Unit } from '@countercheck/measurement';
import * as z from 'zod';

const units = [...new Set(Object.values(quantities).map((each) => each.unit))] as [Unit, ...Unit[]];

export const unitSchema = z
  .enum(units)
  .meta({ id: 'RuleUnit', description: 'Stored unit; see quantities in @countercheck/measurement' });

const constant = z
  .strictObject({ kind: z.literal('constant'), value: z.number(), unit: unitSchema })
  .meta({ description: 'One number' });

const perArea = z
  .strictObject({ kind: z.literal('per-area'), value: z.number().positive(), unit: z.literal('cfm/100ft2') })
  .meta({ description: 'An airflow for each 100 ft² of conditioned floor' });

const byZone = z
  .strictObject({
    kind: z.literal('by-zone'),
    unit: unitSchema,
    zones: z.record(z.string().regex(/^[0-8][ABC]?$/), z.number()),
  })
  .meta({ description: 'By climate zone; "5A" is looked up before "5"' });

const formula = z
  .strictObject({
    kind: z.literal('formula'),
    unit: unitSchema,
    constant: z.number(),
    terms: z.array(z.strictObject({ quantity: z.string(), coefficient: z.number() })).min(1),
  })
  .meta({ description: 'Constant plus the sum of coefficient × named quantity' });

const factorOf = z
  .strictObject({ kind: z.literal('factor-of'), item: z.string(), factor: z.number().positive() })
  .meta({ description: "A share of another item's limit, e.g. 0.5 for half of it" });

/** The closed list of ways to state a limit. Nothing in a rule set is evaluated as code. */
export const limitSchema = z
  .discriminatedUnion('kind', [constant, perArea, byZone, formula, factorOf])
  .meta({ id: 'RuleLimit' });

export type Limit = z.infer<typeof limitSchema>;
