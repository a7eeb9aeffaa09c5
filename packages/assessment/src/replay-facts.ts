import type { Facts, Measured } from '@countercheck/rules';
import { factsFrom } from './facts/index.ts';
import { measureReadings, type ReadingOutcome } from './measure.ts';
import type { FileReading, HouseFile } from './types.ts';

/** Facts to judge a past house by, as a replay reads them. */
export interface ReplayFacts {
  /** as the file stands: of several readings the newest that counts */
  now: Facts;
  /** as each thing was read the first time, before any correction; null when that is the same */
  first: Facts | null;
}

/** Of two readings of one day the one that is listed first. */
function earlier(a: ReadingOutcome, b: ReadingOutcome): boolean {
  return a.counts !== b.counts ? a.counts : a.takenOn < b.takenOn;
}

const bare = (measured: Measured): Measured => ({ ...measured, steps: [], remarks: [] });

/** Without the working: no rule looks at it, and it is more than half of what would have to be kept. */
function slim(facts: Facts): Facts {
  const measured = Object.entries(facts.measured).map(([test, bySubject]) => [
    test,
    Object.fromEntries(
      Object.entries(bySubject).map(([id, each]) => [
        id,
        each.later ? { ...bare(each), later: bare(each.later) } : bare(each),
      ]),
    ),
  ]);
  return { ...facts, measured: Object.fromEntries(measured) as Facts['measured'] };
}

/**
 * The facts of a house as it stands and, where something was measured more than once, as it was first read.
 * Whether a house needed a reinspection shows only in the first: later on everything that failed was corrected
 * and passes. Stored units, without the working. Pure; never throws.
 * @param replaced readings that stood at the end of their visit and were replaced on a later one, oldest first
 */
export function replayFacts(file: HouseFile, replaced: readonly FileReading[] = []): ReplayFacts {
  const standing = measureReadings(file);
  const past = measureReadings({ ...file, readings: [...replaced] });
  const first = new Map<string, ReadingOutcome>();
  for (const each of [...past, ...standing]) {
    const place = `${each.test}/${each.subjectId}`;
    const known = first.get(place);
    if (!known || earlier(each, known)) first.set(place, each);
  }
  const repeated = first.size < past.length + standing.length;
  return {
    now: slim(factsFrom(file, standing)),
    first: repeated ? slim(factsFrom(file, [...first.values()])) : null,
  };
}
