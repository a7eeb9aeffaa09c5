import type { Measured } from '@countercheck/rules';
import type { TestKey } from '@countercheck/measurement';
import { governing, type ReadingOutcome } from '../measure.ts';

/** Results by test and subject, as the rules read them. */
export type MeasuredByTest = Partial<Record<TestKey, Record<string, Measured>>>;

/** One outcome as the rules see it. */
export function toMeasured(outcome: ReadingOutcome): Measured {
  return {
    values: Object.fromEntries(outcome.values.map((each) => [each.key, each])),
    counts: outcome.counts,
    whyNot: outcome.whyNot,
    remarks: outcome.remarks,
    steps: outcome.steps,
    readingIds: [outcome.readingId],
  };
}

/** The governing outcome of each test on each subject. */
export function governingBySubject(
  outcomes: readonly ReadingOutcome[],
): Map<TestKey, Map<string, ReadingOutcome>> {
  const grouped = new Map<TestKey, Map<string, ReadingOutcome[]>>();
  for (const outcome of outcomes) {
    if (outcome.problems.some((each) => each.code === 'wrong-subject')) continue;
    const bySubject = grouped.get(outcome.test) ?? new Map<string, ReadingOutcome[]>();
    grouped.set(outcome.test, bySubject);
    bySubject.set(outcome.subjectId, [...(bySubject.get(outcome.subjectId) ?? []), outcome]);
  }
  return new Map(
    [...grouped].map(([test, bySubject]) => [
      test,
      new Map([...bySubject].map(([id, list]) => [id, governing(list)!])),
    ]),
  );
}
