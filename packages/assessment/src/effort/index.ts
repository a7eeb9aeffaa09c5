import { testDefinitions, type InstrumentKind, type TestKey } from '@countercheck/measurement';
import type { Scorecard } from '@countercheck/rules';
import { subjectsFor, testsOpen } from '../open.ts';
import { itemsToRevisit } from '../revisit.ts';
import type { HouseFile } from '../types.ts';
import { effortMinutes, qualifications, visitBaseMinutes, type Qualification } from './minutes.ts';

export { qualifications, type Qualification } from './minutes.ts';

/** What has to come along on a visit. */
export interface VisitNeeds {
  /** each entry: any one of these kinds of instrument will do */
  instruments: InstrumentKind[][];
  qualifications: Qualification[];
}

export interface VisitEffort extends VisitNeeds {
  /** at the house, in whole quarters of an hour, min */
  minutes: number;
  /** what the minutes are made of, before rounding, min */
  parts: { test: TestKey; subjects: number; minutes: number }[];
}

/** In every rater's pocket; nobody plans who has one. */
const pocket: readonly InstrumentKind[] = ['thermometer', 'tape-measure', 'stopwatch'];

function pairs(scorecard: Scorecard, file: HouseFile, kind: VisitKind): [TestKey, string][] {
  if (kind === 'rough' || kind === 'final')
    return testsOpen(scorecard, file)
      .filter(({ test }) => testDefinitions[test].stage === kind)
      .map(({ test, subjectId }) => [test, subjectId]);
  const again = new Set(itemsToRevisit(scorecard).map((each) => `${each.item}/${each.subjectId}`));
  return scorecard.verdicts
    .filter((each) =>
      kind === 'reinspection'
        ? again.has(`${each.item}/${each.subjectId}`)
        : each.status !== 'not-applicable' && each.status !== 'exempt',
    )
    .flatMap((verdict) =>
      verdict.tests
        .filter((test) => kind === 'reinspection' || testDefinitions[test].stage === 'final')
        .flatMap((test) => subjectsFor(test, verdict, file).map(({ id }): [TestKey, string] => [test, id])),
    );
}

type VisitKind = 'rough' | 'final' | 'reinspection' | 'quality';

/**
 * How long a visit takes and what it needs, by the items that apply to the house as it stands: at rough-in and at
 * the final visit the tests that still wait, at a reinspection what failed and what hangs on it, at a quality visit
 * everything that applies. Minutes per test, each set-up once; rounded up to a quarter of an hour. A house with
 * nothing left to test still takes the time to walk through it. Common practice, no published source.
 */
export function visitEffort(scorecard: Scorecard, file: HouseFile, kind: VisitKind): VisitEffort {
  const subjects = new Map<TestKey, Set<string>>();
  for (const [test, subject] of pairs(scorecard, file, kind))
    subjects.set(test, (subjects.get(test) ?? new Set()).add(subject));
  const setUps = new Map<string, number>();
  const parts = [...subjects].map(([test, { size }]) => {
    const { each, share, setUp, group } = effortMinutes[test];
    setUps.set(group, Math.max(setUps.get(group) ?? 0, share * setUp));
    return { test, subjects: size, minutes: share * each * size };
  });
  const sum = [...setUps.values(), ...parts.map(({ minutes }) => minutes)].reduce((a, b) => a + b, 0);
  const instruments = new Map<string, InstrumentKind[]>();
  const trained = new Set<Qualification>(kind === 'quality' ? ['quality-visits'] : []);
  for (const { test } of parts) {
    trained.add(effortMinutes[test].qualification);
    const kinds = [...testDefinitions[test].instrumentKinds];
    if (kinds.length > 0 && !kinds.some((each) => pocket.includes(each)))
      instruments.set(kinds.join(), kinds);
  }
  return {
    minutes: 15 * Math.ceil((visitBaseMinutes + sum) / 15),
    parts,
    instruments: [...instruments.values()],
    qualifications: qualifications.filter((each) => trained.has(each)),
  };
}
