import { type Checked, problem } from '../outcome.ts';
import { plainNumber } from '../units/round.ts';
import { finite, firstProblem, statedUncertainties } from '../working/input.ts';
import { combined, gaveWorked, type WorkingLine, type Worked, worked } from '../working/worked.ts';
import { meanBaseline } from './baseline.ts';

/** One state of the house in the search for the worst case, in words, and the zone's pressure in it. */
export interface SetUp {
  /** e.g. `exhaust fans and dryer, air handler on, zone door closed` */
  name: string;
  /** combustion zone to outdoors, Pa, with its sign */
  pressure: number;
  standardUncertainty?: number | null;
}

export interface WorstCaseReadings {
  /** zone to outdoors with every fan off, Pa; before, and after when it was read again; at least one */
  baselines: readonly number[];
  /** standard uncertainty of one baseline reading, Pa */
  baselineUncertainty?: number | null;
  setUps: readonly SetUp[];
}

export interface WorstCase extends Worked<'Pa'> {
  /** the set-up that pulled the zone down the most; the first of equals */
  setUp: string;
  /** worst pressure − mean baseline, Pa: below zero when pulled down */
  netPressure: number;
  /** largest minus smallest baseline, Pa */
  baselineDrift: number;
}

/** Baselines further apart than this are remarked on, Pa: wind decides the result. Common practice, no published source. */
export const largestBaselineDriftPa = 2;

/**
 * Worst-case depressurisation of a combustion appliance zone, Pa: mean baseline − lowest pressure over all
 * set-ups; above zero is pulled down, below zero pushed up. The mean of the baselines is taken off.
 * Uncertainty when those of the chosen set-up and of the baseline are known; the readings count as independent,
 * and of several baselines none makes the others better (one gauge).
 * Problems: `missing` (no baseline, no set-up), `not-a-number`, `bad-uncertainty`. Never throws.
 * Source: net pressure change of the data format for home energy ratings (seen); the method is common practice, no
 * published source. The worst case is known to predict real spillage poorly (seen at
 * https://srmi.biz/2012/11/27/simplifying-worst-case-combustion-testing/): it does not stand in for the spillage test.
 */
export function worstCaseDepressurization(readings: WorstCaseReadings): Checked<WorstCase> {
  const { baselines, baselineUncertainty, setUps } = readings;
  const [first, ...others] = setUps;
  if (baselines.length === 0) {
    return problem('baselines', 'missing', 'Read the zone to outdoors with every fan off first.');
  }
  if (!first) return problem('setUps', 'missing', 'No set-up of the house was tried for the worst case.');
  const wrong = firstProblem(
    ...baselines.map((value, index) => finite(`baselines.${index}`, 'The baseline', value, 'Pa')),
    ...setUps.map(({ name, pressure }, index) =>
      finite(`setUps.${index}`, `The pressure of ${name}`, pressure, 'Pa'),
    ),
    ...setUps.map(({ name, standardUncertainty }) => statedUncertainties({ [name]: standardUncertainty })),
    statedUncertainties({ baseline: baselineUncertainty }),
  );
  if (wrong) return wrong;
  const worst = others.reduce((found, setUp) => (setUp.pressure < found.pressure ? setUp : found), first);
  const baseline = meanBaseline(baselines);
  const drift = Math.max(...baselines) - Math.min(...baselines);
  const value = baseline - worst.pressure;
  const u = combined([
    [1, baselineUncertainty],
    [1, worst.standardUncertainty],
  ]);
  const remarks = [
    ...(drift > largestBaselineDriftPa
      ? [`the baselines are ${plainNumber(drift)} Pa apart: wait for less wind`]
      : []),
    ...(value <= 0 ? ['no set-up pulled the zone below its baseline'] : []),
  ];
  return gaveWorked(worked('Pa', value, u, working(baselines, baseline, worst, value), remarks), {
    setUp: worst.name,
    netPressure: -value + 0,
    baselineDrift: drift,
  });
}

function working(baselines: readonly number[], baseline: number, worst: SetUp, value: number): WorkingLine[] {
  const sum = baselines.map((one) => `(${plainNumber(one)})`).join(' + ');
  const mean = baselines.length > 1 ? `(${sum}) / ${baselines.length}` : sum;
  const drawn = `${plainNumber(baseline)} − (${plainNumber(worst.pressure)}), ${worst.name}`;
  return [
    { label: 'Mean baseline', working: mean, value: baseline, unit: 'Pa' },
    { label: 'Depressurization in the worst case', working: drawn, value, unit: 'Pa' },
  ];
}
