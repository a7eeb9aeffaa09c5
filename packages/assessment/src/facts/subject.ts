import { reportedFigures, type ReportedFigure, type SubjectFacts, type Value } from '@countercheck/rules';
import { governing } from '../measure.ts';
import { ventilatorHasDucts, type Subject } from '../subjects.ts';
import type { HouseFile } from '../types.ts';
import { positive } from './house.ts';
import type { governingBySubject } from './measured.ts';

type Governed = ReturnType<typeof governingBySubject>;

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
 * The figure that a subject is judged by, and its revision where there is more than one: what was in force when the
 * newest of its readings was taken. So a reinspection goes by what was signed for it, and a figure that was signed
 * later changes nothing that was read before.
 */
function figureInForce(
  { key, tests }: ReportedFigure,
  subjectId: string,
  file: HouseFile,
  governed: Governed,
): { value: number | null; revision: number | undefined } {
  const current = { value: file.reported[subjectId]?.[key] ?? null, revision: file.reportedRevision };
  const { earlierFigures = [] } = file;
  if (earlierFigures.length === 0) return current;
  const readings = tests.flatMap((test) => governed.get(test)?.get(subjectId) ?? []);
  const newest = governing(readings);
  if (newest === null) return current;
  const revision = newest.figuresRevision ?? earlierFigures[0]!.revision;
  const earlier = earlierFigures.find((each) => each.revision === revision);
  return earlier ? { value: earlier.figures[subjectId]?.[key] ?? null, revision } : current;
}

/**
 * One subject with its quantities and the installer's figures. While a test on it is hidden, so are the
 * figures that this test re-measures and the figures that no test re-measures; their values are left out
 * here, so that nothing computed from the facts can tell them.
 * @param governed the governing outcome of each test on each subject
 */
export function subjectFacts(subject: Subject, file: HouseFile, governed: Governed): SubjectFacts {
  const tests = file.hidden.filter((each) => each.subjectId === subject.id).map((each) => each.test);
  const figures = reportedFigures.filter((each) => each.subject === subject.kind);
  const hiddenFigures = figures
    .filter(
      (each) =>
        tests.length > 0 && (each.tests.length === 0 || each.tests.some((test) => tests.includes(test))),
    )
    .map((each) => each.key);
  const reported: Record<string, number | null> = {};
  const revisions: Record<string, number> = {};
  for (const figure of figures) {
    const { value, revision } = figureInForce(figure, subject.id, file, governed);
    const hidden = hiddenFigures.includes(figure.key);
    reported[figure.key] = hidden ? null : value;
    if (revision !== undefined && value !== null && !hidden) revisions[figure.key] = revision;
  }
  return {
    ...subject,
    facts: namedQuantities(subject, file),
    reported,
    ...(Object.keys(revisions).length > 0 ? { reportedRevisions: revisions } : {}),
    reportedHidden: hiddenFigures.length > 0,
    hiddenFigures,
  };
}
