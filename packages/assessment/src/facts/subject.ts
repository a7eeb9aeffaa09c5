import { reportedFigures, type SubjectFacts, type Value } from '@countercheck/rules';
import { ventilatorHasDucts, type Subject } from '../subjects.ts';
import type { HouseFile } from '../types.ts';
import { positive } from './house.ts';

function namedQuantities(subject: Subject, file: HouseFile): Record<string, Value> {
  const { id } = subject;
  if (subject.kind === 'ventilator') return { ducted: ventilatorHasDucts(file) };
  const system = file.systems.find((each) => each.id === id);
  if (subject.kind === 'system' && system)
    return {
      hasDucts: system.hasDucts,
      ductsInside: system.ductsInside,
      designAirflow: positive(system.designAirflowCfm),
    };
  const appliance = file.appliances.find((each) => each.id === id);
  if (subject.kind === 'appliance' && appliance)
    return { applianceKind: appliance.kind, fuel: appliance.fuel, venting: appliance.venting };
  const room = file.rooms.find((each) => each.id === id);
  return room ? { supplyFlow: positive(room.supplyFlowCfm), volume: positive(room.volumeFt3) } : {};
}

/**
 * One subject with its quantities and the installer's figures. While a test on it is hidden, so are the
 * figures that this test re-measures and the figures that no test re-measures; their values are left out
 * here, so that nothing computed from the facts can tell them.
 */
export function subjectFacts(subject: Subject, file: HouseFile): SubjectFacts {
  const tests = file.hidden.filter((each) => each.subjectId === subject.id).map((each) => each.test);
  const figures = reportedFigures.filter((each) => each.subject === subject.kind);
  const hiddenFigures = figures
    .filter(
      (each) =>
        tests.length > 0 && (each.tests.length === 0 || each.tests.some((test) => tests.includes(test))),
    )
    .map((each) => each.key);
  const given = file.reported[subject.id] ?? {};
  const reported = figures.map(({ key }) => [key, hiddenFigures.includes(key) ? null : (given[key] ?? null)]);
  return {
    ...subject,
    facts: namedQuantities(subject, file),
    reported: Object.fromEntries(reported) as Record<string, number | null>,
    reportedHidden: hiddenFigures.length > 0,
    hiddenFigures,
  };
}
