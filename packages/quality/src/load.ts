import type * as z from 'zod';
import { parseText, type TextFile } from '@countercheck/rules/load';
import { checklistSchema, type Checklist } from './checklist.ts';
import { tolerancesSchema, type Tolerances } from './tolerances.ts';

/** One folder of dated versions, the newest last. */
function loadVersions<T extends { version: string; effective: string }>(
  files: readonly TextFile[],
  schema: z.ZodType<T>,
): T[] {
  const versions = files.map((file) => {
    const parsed = parseText(file);
    const problems = parsed.problems.map(({ line, message }) => `${file.path}:${line}: ${message}`);
    const result = schema.safeParse(parsed.data);
    if (problems.length === 0 && !result.success)
      for (const { path, message } of result.error.issues)
        problems.push(
          `${file.path}:${parsed.lineOf(path as (string | number)[])}: ${path.join('.')} ${message}`,
        );
    if (result.success && !file.path.endsWith(`/${result.data.version}.yaml`))
      problems.push(`${file.path}:1: the file says version ${result.data.version}`);
    if (problems.length > 0 || !result.success) throw new Error(problems.join('\n'));
    return result.data;
  });
  return versions.sort((a, b) => a.effective.localeCompare(b.effective));
}

/** Reads the versions of a checklist; throws with file, line and field where one cannot be used. */
export const loadChecklists = (files: readonly TextFile[]): Checklist[] =>
  loadVersions(files, checklistSchema);

/** Reads the versions of the tolerances; throws with file, line and field where one cannot be used. */
export const loadTolerances = (files: readonly TextFile[]): Tolerances[] =>
  loadVersions(files, tolerancesSchema);

/** The version in force on a day (YYYY-MM-DD), or else the oldest; throws when there is none at all. */
export function inForce<T extends { effective: string }>(versions: readonly T[], day: string): T {
  const found = versions.findLast(({ effective }) => effective <= day) ?? versions[0];
  if (!found) throw new Error('There is no version at all.');
  return found;
}
