import * as z from 'zod';
import { itemChangesSchema, ruleSetSchema, setFileSchema } from './set.ts';
import { itemSchema } from './item.ts';

/**
 * JSON Schema (draft 2020-12) of a complete rule set, for editors and for other people's tools.
 * Semantic rules (known quantities, matching units) are beyond it: see `checkRuleSet`.
 */
export function ruleSetJsonSchema(): Record<string, unknown> {
  return z.toJSONSchema(ruleSetSchema, { io: 'input' }) as Record<string, unknown>;
}

/** JSON Schemas of the files of a rule-set folder, by the file they describe. */
export function fileJsonSchemas(): Record<'set' | 'item' | 'changes', Record<string, unknown>> {
  const of = (schema: z.ZodType) => z.toJSONSchema(schema, { io: 'input' }) as Record<string, unknown>;
  return { set: of(setFileSchema), item: of(itemSchema), changes: of(itemChangesSchema) };
}
