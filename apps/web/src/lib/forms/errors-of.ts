import type * as z from 'zod';
import { wordsFor } from './words.ts';

/** What a contract's schema says about what was entered, by path; empty when it can be sent. */
export function errorsOf(schema: z.ZodType, values: unknown): Record<string, string> {
  const result = schema.safeParse(values, { error: wordsFor });
  if (result.success) return {};
  const errors: Record<string, string> = {};
  for (const issue of result.error.issues) errors[issue.path.join('.')] ??= issue.message;
  return errors;
}
