import type { Reading } from '@countercheck/contracts';
import { format, type UnitSystem } from '@countercheck/measurement';
import type { Step } from '../work/steps.ts';

/**
 * The number read last for a field: of the same part of the house if there is one, else of another part with the same
 * test, so that a slipped point is seen while it is typed. Null where nothing was read yet.
 */
export function lastNumber(
  step: Step,
  readings: readonly Reading[],
  test: string,
  subjectId: string,
  labelOf: (subjectId: string) => string,
  system: UnitSystem,
): { text: string; where: string } | null {
  if (step.kind !== 'number') return null;
  const { key, quantity } = step.field;
  const found = readings
    .filter((each) => each.test === test && each.supersededById === null)
    .toSorted(
      (a, b) =>
        Number(b.subjectId === subjectId) - Number(a.subjectId === subjectId) ||
        b.takenAt.localeCompare(a.takenAt),
    );
  for (const reading of found) {
    const part = step.row === null ? reading.raw : reading.raw.rows[step.row];
    const value = part?.values[key];
    if (value !== undefined)
      return { text: format(quantity, value, system), where: labelOf(reading.subjectId) };
  }
  return null;
}
