import * as z from 'zod';
import { governing, measureReadings, type HouseFile, type ReadingOutcome } from '@countercheck/assessment';
import { testKeys, type TestKey } from '@countercheck/measurement';
import type { Db } from '../../kernel/database/database.ts';
import { loadHouseFile } from '../assessment/index.ts';

export interface Measured {
  test: TestKey;
  subjectId: string;
}
const pairs = z.array(z.object({ test: z.enum(testKeys), subjectId: z.string() }));
const keyOf = ({ test, subjectId }: Measured) => `${test}/${subjectId}`;

/** Of each test on each subject the reading that decides, when it counts. */
export function decisive(file: HouseFile): Map<string, ReadingOutcome> {
  const groups = new Map<string, ReadingOutcome[]>();
  for (const outcome of measureReadings(file))
    groups.set(keyOf(outcome), [...(groups.get(keyOf(outcome)) ?? []), outcome]);
  return new Map(
    [...groups].flatMap(([key, outcomes]) => {
      const one = governing(outcomes);
      return one?.counts ? [[key, one] as const] : [];
    }),
  );
}

/** Ducts cannot be tested at rough-in once the walls are closed. */
const notAgain: readonly TestKey[] = ['duct-leakage-rough'];

/** What a re-test is to measure: what was ordered, or everything that was measured and counts. */
export async function scopeOf(db: Db, retest: { houseId: string; scope: unknown }): Promise<Measured[]> {
  const ordered = pairs.safeParse(retest.scope);
  if (ordered.success) return ordered.data;
  const first = decisive(await loadHouseFile(db, retest.houseId));
  return [...first.values()]
    .filter(({ test }) => !notAgain.includes(test))
    .map(({ test, subjectId }) => ({ test, subjectId }));
}
