import { orderOfWork, subjectsOf, type OrderedWork, type Work } from '@countercheck/assessment';
import type { ReadingOutcome } from '@countercheck/assessment';
import type { VisitSheet } from '@countercheck/contracts';
import { testOutlines } from '@countercheck/measurement';
import { standing } from '../sheet/readings.ts';
import { testPlaces, type TestPlace } from '../sheet/test-places.ts';
import { fileOf, verdictsOf } from '../sheet/verdicts.ts';

/** A test that is still to be done on this visit, with the item for which it is done first. */
export interface OpenWork extends Work {
  place: TestPlace;
  item: { item: string; subjectId: string };
}

/** A test on its part of the house, as lists say it. */
export const workName = ({ place }: Pick<OpenWork, 'place'>): string =>
  `${testOutlines[place.test].title}, ${place.subject.label}`;

/**
 * What is still to be read on a visit, in the order of work: what waiting items need, and on a visit that looks
 * again also what was read on an earlier one. A test that has a reading of this visit is done.
 */
export function openWork(
  sheet: VisitSheet,
  outcomes: ReadonlyMap<string, ReadingOutcome>,
): OrderedWork<OpenWork>[] {
  const file = fileOf(sheet);
  const again = sheet.visit.kind === 'reinspection' || sheet.visit.kind === 'quality';
  const known = new Set(subjectsOf(file).map(({ id }) => id));
  const found = new Map<string, OpenWork>();
  for (const verdict of verdictsOf(sheet)) {
    const comes = verdict.status === 'waiting' || (again && verdict.status === 'fail');
    if (!comes) continue;
    for (const place of testPlaces(verdict, file)) {
      const { test, subject } = place;
      const readings = standing(sheet.readings, test, subject.id);
      const here = readings.some(({ visitId }) => visitId === sheet.visit.id);
      const counts = !again && readings.some(({ id }) => outcomes.get(id)?.counts);
      if (here || counts || !known.has(subject.id)) continue;
      const key = `${test}/${subject.id}`;
      const before = found.get(key);
      found.set(key, {
        ...{ test, subjectId: subject.id, subjectLabel: subject.label, place },
        item: before?.item ?? { item: verdict.item, subjectId: verdict.subjectId },
        safety: (before?.safety ?? false) || verdict.safety,
      });
    }
  }
  return orderOfWork([...found.values()]);
}

/** How many tests were read on this visit, each part of the house on its own. */
export function doneHere({ visit, readings }: Pick<VisitSheet, 'visit' | 'readings'>): number {
  const here = readings.filter((each) => each.visitId === visit.id && each.supersededById === null);
  return new Set(here.map(({ test, subjectId }) => `${test}/${subjectId}`)).size;
}
