import type * as z from 'zod';
import type { LocatedProblem } from '../check/problem.ts';
import type { Parsed } from './text.ts';

export type Shaped<T> = { ok: true; data: T } | { ok: false; problems: LocatedProblem[] };

type Path = (string | number)[];

function flatten(issue: z.core.$ZodIssue, base: Path): { path: Path; message: string }[] {
  const path = [...base, ...(issue.path as Path)];
  if (issue.code === 'unrecognized_keys')
    return issue.keys.map((key) => ({ path: [...path, key], message: 'nobody knows this field' }));
  if (issue.code === 'invalid_union' && issue.errors.length === 0)
    return [{ path, message: 'is none of the known kinds' }];
  if (issue.code === 'invalid_type' && issue.input === undefined && /received undefined/.test(issue.message))
    return [{ path, message: 'is missing' }];
  return [{ path, message: issue.message }];
}

/** Checks the shape of a parsed text; every problem names file, line and field. */
export function shape<T>(parsed: Parsed, schema: z.ZodType<T>): Shaped<T> {
  if (parsed.problems.length > 0) return { ok: false, problems: parsed.problems };
  const result = schema.safeParse(parsed.data);
  if (result.success) return { ok: true, data: result.data };
  const found = result.error.issues.flatMap((issue) => flatten(issue, []));
  const problems = found.map(({ path, message }) => ({
    file: parsed.file,
    line: parsed.lineOf(path),
    field: path.join('.'),
    message,
  }));
  return { ok: false, problems };
}
