import * as z from 'zod';
import { itemChangesSchema, ruleSetSchema, setFileSchema } from './set.ts';
import { itemSchema } from './item.ts';

type JsonSchema = Record<string, unknown>;

const of = (schema: z.ZodType, title: string): JsonSchema => ({
  ...(z.toJSONSchema(schema, { io: 'input', reused: 'ref' }) as JsonSchema),
  title,
});

/**
 * JSON Schema (draft 2020-12) of a complete rule set, for editors and for other people's tools.
 * Semantic rules (known quantities, matching units) are beyond it: see `checkRuleSet`.
 */
export function ruleSetJsonSchema(): JsonSchema {
  return of(ruleSetSchema, 'A complete rule set, inheritance resolved');
}

/** JSON Schemas of the files of a rule-set folder, by the file they describe. */
export function fileJsonSchemas(): Record<'set' | 'item' | 'changes', JsonSchema> {
  return {
    set: of(setFileSchema, 'set.yaml: what the set is and which items it has'),
    item: of(itemSchema, 'An item file: one thing that is verified'),
    changes: of(itemChangesSchema, "An heir's item file: what it changes in an inherited item"),
  };
}

/** Every published schema by its file's name in `packages/rules/schema`. */
export function publishedJsonSchemas(): Record<string, JsonSchema> {
  const files = fileJsonSchemas();
  return {
    'rule-set.schema.json': ruleSetJsonSchema(),
    'set-file.schema.json': files.set,
    'item-file.schema.json': files.item,
    'changes-file.schema.json': files.changes,
  };
}
