import type { TestKey } from '@countercheck/measurement';
import type { Facts } from '@countercheck/rules';
import { measureReadings, type ReadingOutcome } from '../measure.ts';
import { houseId, subjectsOf, ventilatorHasDucts, ventilatorId } from '../subjects.ts';
import type { HouseFile } from '../types.ts';
import { withAirChanges } from './airChanges.ts';
import { sumDuctLeakage, type Part } from './ductSum.ts';
import { houseFacts } from './house.ts';
import { governingBySubject, outcomesBySubject, toMeasured, type MeasuredByTest } from './measured.ts';
import { subjectFacts } from './subject.ts';

type Governing = ReturnType<typeof governingBySubject>;

function partsOf(test: TestKey, file: HouseFile, governing: Governing): Part[] {
  const systems = file.systems
    .filter((each) => each.hasDucts)
    .map(({ id, label }) => ({ label, outcome: governing.get(test)?.get(id) ?? null }));
  if (test !== 'duct-leakage-total' || !ventilatorHasDucts(file)) return systems;
  const own = governing.get('ventilator-duct-leakage')?.get(ventilatorId) ?? null;
  return [...systems, { label: 'Balanced ventilation unit', outcome: own }];
}

function addForHouse(measured: MeasuredByTest, file: HouseFile, governing: Governing): void {
  for (const test of ['duct-leakage-rough', 'duct-leakage-total', 'duct-leakage-outdoors'] as const) {
    const sum = sumDuctLeakage(test, partsOf(test, file, governing), file.house.conditionedFloorAreaFt2);
    if (sum) measured[test] = { ...measured[test], [houseId]: sum };
  }
  const envelope = measured['envelope-leakage']?.[houseId];
  if (envelope)
    measured['envelope-leakage'] = { [houseId]: withAirChanges(envelope, file.house.conditionedVolumeFt3) };
}

/** `buildFacts` for readings that have been computed already. */
export function factsFrom(file: HouseFile, outcomes: readonly ReadingOutcome[]): Facts {
  const grouped = outcomesBySubject(outcomes);
  const governing = governingBySubject(grouped);
  const measured: MeasuredByTest = {};
  for (const [test, bySubject] of grouped)
    measured[test] = Object.fromEntries([...bySubject].map(([id, list]) => [id, toMeasured(list)]));
  addForHouse(measured, file, governing);
  return {
    house: houseFacts(file),
    subjects: subjectsOf(file).map((subject) => subjectFacts(subject, file, governing)),
    measured,
    ...(file.decisionRule ? { decision: file.decisionRule } : {}),
  };
}

/**
 * Everything the rules may look at, from a house's file: its quantities, its subjects with the installer's
 * figures (without the hidden ones), what its readings gave, and the sums over its systems under the
 * subject `house`. Stored units. Pure; never throws.
 */
export function buildFacts(file: HouseFile): Facts {
  return factsFrom(file, measureReadings(file));
}
