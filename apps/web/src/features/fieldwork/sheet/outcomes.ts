import { measureReadings, type ReadingOutcome } from '@countercheck/assessment';
import type { VisitSheet } from '@countercheck/contracts';
import { fileOf } from './verdicts.ts';

const known = new WeakMap<VisitSheet, Map<string, ReadingOutcome>>();

/** What each reading of the sheet came to, by its id; worked out once for a sheet. */
export function outcomesOf(sheet: VisitSheet): ReadonlyMap<string, ReadingOutcome> {
  const found =
    known.get(sheet) ?? new Map(measureReadings(fileOf(sheet)).map((each) => [each.readingId, each]));
  known.set(sheet, found);
  return found;
}
