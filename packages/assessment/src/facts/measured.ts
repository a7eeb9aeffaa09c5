import type { Measured } from '@countercheck/rules';
import type { TestKey } from '@countercheck/measurement';
import { governing, newerThanGoverning, type ReadingOutcome } from '../measure.ts';

/** Results by test and subject, as the rules read them. */
export type MeasuredByTest = Partial<Record<TestKey, Record<string, Measured>>>;

function plainly(outcome: ReadingOutcome): Measured {
  return {
    values: Object.fromEntries(outcome.values.map((each) => [each.key, each])),
    counts: outcome.counts,
    whyNot: outcome.whyNot,
    remarks: outcome.remarks,
    steps: outcome.steps,
    readingIds: [outcome.readingId],
  };
}

/** The governing of some outcomes as the rules see it, and a newer one that does not count beside it. */
export function toMeasured(outcomes: readonly ReadingOutcome[]): Measured {
  const measured = plainly(governing(outcomes)!);
  const newer = newerThanGoverning(outcomes);
  if (newer === null) return measured;
  const remark = `The newer reading of ${newer.takenOn} does not count: ${newer.whyNot ?? 'the reason is not known'}`;
  return { ...measured, remarks: [...measured.remarks, remark], later: plainly(newer) };
}

/** All outcomes of each test on each subject, those on a wrong subject left out. */
export function outcomesBySubject(
  outcomes: readonly ReadingOutcome[],
): Map<TestKey, Map<string, ReadingOutcome[]>> {
  const grouped = new Map<TestKey, Map<string, ReadingOutcome[]>>();
  for (const outcome of outcomes) {
    if (outcome.problems.some((each) => each.code === 'wrong-subject')) continue;
    const bySubject = grouped.get(outcome.test) ?? new Map<string, ReadingOutcome[]>();
    grouped.set(outcome.test, bySubject);
    bySubject.set(outcome.subjectId, [...(bySubject.get(outcome.subjectId) ?? []), outcome]);
  }
  return grouped;
}

/** The governing outcome of each test on each subject. */
export function governingBySubject(
  grouped: ReturnType<typeof outcomesBySubject>,
): Map<TestKey, Map<string, ReadingOutcome>> {
  return new Map(
    [...grouped].map(([test, bySubject]) => [
      test,
      new Map([...bySubject].map(([id, list]) => [id, governing(list)!])),
    ]),
  );
}
