import type { Tolerances } from '@countercheck/quality';
import { inForce, loadTolerances } from '@countercheck/quality/load';
import { readVersions } from '../../kernel/versions/read-versions.ts';

let versions: Promise<Tolerances[]> | undefined;

/** The tolerances in force on a day (YYYY-MM-DD). Throws, naming file and line, when a version has a fault. */
export async function tolerancesOn(day: string): Promise<Tolerances> {
  versions ??= readVersions('tolerances/re-test').then(loadTolerances);
  return inForce(await versions, day);
}
