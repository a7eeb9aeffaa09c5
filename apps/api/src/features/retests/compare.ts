import { subjectsOf } from '@countercheck/assessment';
import { agreementOf } from '@countercheck/quality';
import type { Prisma } from '@countercheck/prisma';
import type { Db } from '../../kernel/database/database.ts';
import { loadHouseFile, loadSecondFile } from '../assessment/index.ts';
import { tolerancesOn } from './tolerances.ts';
import { decisive, type Measured } from './scope.ts';

type Row = Prisma.RetestComparisonCreateManyInput;

/**
 * Both measurements of a house beside each other, value by value, computed now from both raw readings. Values whose
 * quantity has no tolerance, and tests that one of the two has not, are left out.
 */
export async function compareTwice(
  db: Db,
  retest: { id: string; houseId: string },
  visitId: string,
  scope: readonly Measured[],
  day: string,
): Promise<Row[]> {
  const file = await loadHouseFile(db, retest.houseId);
  const labels = new Map(subjectsOf(file).map(({ id, label }) => [id, label]));
  const first = decisive(file);
  const second = decisive(await loadSecondFile(db, retest.houseId, visitId));
  const tolerances = await tolerancesOn(day);
  const taken = await db.reading.findMany({
    where: { visitId, supersededBy: null },
    select: { id: true, takenAt: true },
  });
  const takenAt = new Map(taken.map((reading) => [reading.id, reading.takenAt]));
  return scope.flatMap(({ test, subjectId }) => {
    const one = first.get(`${test}/${subjectId}`);
    const other = second.get(`${test}/${subjectId}`);
    if (!one || !other) return [];
    return one.values.flatMap((value): Row[] => {
      const again = other.values.find(({ key }) => key === value.key);
      const agreement =
        again &&
        agreementOf(
          value.quantity,
          { value: value.value, expanded: value.expandedUncertainty },
          { value: again.value, expanded: again.expandedUncertainty },
          tolerances,
        );
      if (!again || !agreement) return [];
      return [
        {
          ...{ retestId: retest.id, test, subjectId, subjectLabel: labels.get(subjectId) ?? subjectId },
          ...{ value: value.key, label: value.label, quantity: value.quantity, unit: value.unit },
          ...{ firstReadingId: one.readingId, secondReadingId: other.readingId },
          ...{ first: value.value, second: again.value },
          firstExpanded: value.expandedUncertainty,
          secondExpanded: again.expandedUncertainty,
          ...{ tolerance: agreement.tolerance, toleranceVersion: tolerances.version },
          ...{ allowed: agreement.allowed, agrees: agreement.agrees },
          takenAt: takenAt.get(other.readingId) ?? new Date(),
        },
      ];
    });
  });
}
