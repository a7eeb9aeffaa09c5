import { subjectsOf, ventilatorHasDucts, type HouseFile, type Subject } from '@countercheck/assessment';
import { testOutlines, type TestKey } from '@countercheck/measurement';
import type { ItemVerdict } from '@countercheck/rules';

/** One form to fill: a test on one part of the house. */
export interface TestPlace {
  test: TestKey;
  subject: Subject;
}

const ductTests: readonly TestKey[] = ['duct-leakage-rough', 'duct-leakage-total', 'duct-leakage-outdoors'];

/**
 * Where an item's tests are done. A test whose subjects are of the item's kind is done on the item's own;
 * otherwise (a sum over all systems, a house-wide reading for one room) on every subject of the test's kind
 * that has what is tested.
 */
export function testPlaces(
  verdict: Pick<ItemVerdict, 'tests' | 'subjectId' | 'subjectKind'>,
  file: Pick<HouseFile, 'house' | 'systems' | 'rooms' | 'appliances'>,
): TestPlace[] {
  const ducted = file.systems.filter(({ hasDucts }) => hasDucts).map(({ id }) => id);
  return verdict.tests.flatMap((test) => {
    const { subject: kind } = testOutlines[test];
    const own = kind === verdict.subjectKind;
    return subjectsOf(file)
      .filter((subject) => subject.kind === kind && (!own || subject.id === verdict.subjectId))
      .filter(({ id }) => own || !ductTests.includes(test) || ducted.includes(id))
      .filter(() => own || test !== 'ventilator-duct-leakage' || ventilatorHasDucts(file))
      .map((subject) => ({ test, subject }));
  });
}
