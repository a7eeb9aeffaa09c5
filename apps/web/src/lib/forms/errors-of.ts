import type * as z from 'zod';
import { wordsFor } from './words.ts';

/** What a contract's schema says about what was entered, by path; empty when it can be sent. */
export function errorsOf(schema: z.ZodType, values: unknown): Record<string, string> {
  const result = schema.safeParse(values, { error: wordsFor });
  if (result.success) return {};
  const errors: Record<string, string> = {};
  for (const issue of result.error.issues) {
    // Nothing chosen yet is not a wrong choice, whatever the schema calls it.
    const unchosen = issue.code === 'invalid_value' && !valueAt(values, issue.path);
    errors[issue.path.join('.')] ??= unchosen ? 'Choose one of the list' : issue.message;
  }
  return errors;
}

function valueAt(values: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>((at, key) => (at as Record<PropertyKey, unknown> | null)?.[key], values);
}
