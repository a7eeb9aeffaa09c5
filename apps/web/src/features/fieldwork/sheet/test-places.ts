import { testDefinition, type SubjectKind, type TestKey } from '@countercheck/measurement';
import type { ItemVerdict } from '@countercheck/rules';

export interface Subject {
  id: string;
  kind: SubjectKind;
  label: string;
}

/** One form to fill: a test on one subject. */
export interface TestPlace {
  test: TestKey;
  subject: Subject;
}

/**
 * Where an item's tests are done. A test whose subjects are of the item's kind is done on the item's own;
 * otherwise (a sum over all systems, a house-wide reading for one room) on every subject of the test's kind.
 */
export function testPlaces(
  verdict: Pick<ItemVerdict, 'tests' | 'subjectId' | 'subjectKind'>,
  subjects: readonly Subject[],
): TestPlace[] {
  return verdict.tests.flatMap((test) => {
    const { subject: kind } = testDefinition(test);
    return subjects
      .filter(
        (subject) =>
          subject.kind === kind && (kind !== verdict.subjectKind || subject.id === verdict.subjectId),
      )
      .map((subject) => ({ test, subject }));
  });
}
