import { type Checked, problem } from '../outcome.ts';
import { graded, type Graded } from '../installation/grade.ts';
import { type GradeThresholds, grades310 } from '../installation/thresholds.ts';
import { plainNumber } from '../units/round.ts';
import { aboveZero, finite, firstProblem, statedUncertainties, zeroOrMore } from '../working/input.ts';
import type { Uncertainties } from '../working/input.ts';
import { combined, gaveWorked, type Worked, worked } from '../working/worked.ts';

/** A refrigerant circuit by its plate and its installation instructions. Weights in one unit, lengths in another. */
export interface ChargeByPlate {
  /** charge in the outdoor unit as shipped, oz, above zero */
  factoryCharge: number;
  /** length of line set that the factory charge is meant for, ft, zero or more */
  includedLength: number;
  /** length of the line set as installed, ft, zero or more */
  installedLength: number;
  /** oz for each foot more or less, zero or more; from the instructions, by the diameter of the lines */
  perFoot: number;
  /** oz added (above zero) or left out (below) for the indoor coil or a filter drier; from the instructions */
  otherCorrection?: number;
  /** a shorter line set than included takes charge off when true; instructions differ, so it has to be said */
  removeWhenShorter: boolean;
  uncertainties?: Uncertainties<'installedLength'>;
}

/**
 * The charge a circuit should hold, oz: factory + (installed − included) · per foot + other corrections. A line set
 * shorter than included takes nothing off unless `removeWhenShorter`.
 * Problems: `not-above-zero`, `below-zero`, `not-a-number`, `nothing-left` (the corrections take it all),
 * `bad-uncertainty`. Never throws.
 * Source: common practice, no published source; the numbers are the equipment maker's. Work on a refrigerant
 * circuit is for people licensed for it; the rater only reads and computes.
 */
export function chargeByWeight(plate: ChargeByPlate): Checked<Worked<'oz'>> {
  const {
    factoryCharge,
    includedLength,
    installedLength,
    perFoot,
    otherCorrection = 0,
    uncertainties,
  } = plate;
  const wrong = firstProblem(
    aboveZero('factoryCharge', 'The factory charge', factoryCharge, 'oz'),
    zeroOrMore('includedLength', 'The length of line set included', includedLength, 'ft'),
    zeroOrMore('installedLength', 'The length of line set installed', installedLength, 'ft'),
    zeroOrMore('perFoot', 'The charge for each foot', perFoot, 'oz/ft'),
    finite('otherCorrection', 'The other correction', otherCorrection, 'oz'),
    statedUncertainties(uncertainties),
  );
  if (wrong) return wrong;
  const more = installedLength - includedLength;
  const counted = plate.removeWhenShorter ? more : Math.max(0, more);
  const forLines = counted * perFoot;
  const value = factoryCharge + forLines + otherCorrection;
  if (value <= 0) {
    return problem(
      'otherCorrection',
      'nothing-left',
      `The corrections leave ${plainNumber(value)} oz of charge.`,
    );
  }
  const lines = `(${plainNumber(installedLength)} − ${plainNumber(includedLength)}) × ${plainNumber(perFoot)}`;
  const sum = `${plainNumber(factoryCharge)} + (${plainNumber(forLines)}) + (${plainNumber(otherCorrection)})`;
  const steps = [
    {
      label: 'For the line set',
      working: counted === more ? lines : `max(0, ${lines})`,
      value: forLines,
      unit: 'oz',
    },
    { label: 'Charge by plate and line set', working: sum, value, unit: 'oz' },
  ];
  const u = combined([[counted === more ? perFoot : 0, uncertainties?.installedLength]]);
  const remarks = counted === more ? [] : ['the line set is shorter than included; nothing is taken off'];
  return gaveWorked(worked('oz', value, u, steps, remarks), {});
}

/**
 * Grade of a weighed charge by its deviation from the charge that the circuit should hold, %:
 * (weighed − expected) / expected · 100. Only the grades I and III are remembered for charge in ANSI/RESNET/ACCA
 * 310-2020, 8.
 * @param weighed oz, zero or more @param expected oz, above zero, of `chargeByWeight`
 * @param thresholds the company's; the standard's tolerance is not known here, so without them the answer is the
 * problem `limits-not-set`
 * Other problems: `below-zero`, `not-above-zero`, `bad-uncertainty`. Never throws.
 */
export function gradeChargeByWeight(
  weighed: number,
  expected: number,
  thresholds: GradeThresholds | null = grades310.chargeDeviation,
  uncertainties?: Uncertainties<'weighed' | 'expected'>,
): Checked<Graded<'%'>> {
  const wrong = firstProblem(
    zeroOrMore('weighed', 'The weighed charge', weighed, 'oz'),
    aboveZero('expected', 'The expected charge', expected, 'oz'),
    statedUncertainties(uncertainties),
  );
  if (wrong) return wrong;
  if (!thresholds) {
    const words = 'No tolerance for a weighed charge was seen; the company has to set its own first.';
    return problem('thresholds', 'limits-not-set', words);
  }
  const value = ((weighed - expected) / expected) * 100;
  const working = `(${plainNumber(weighed)} − ${plainNumber(expected)}) / ${plainNumber(expected)} × 100`;
  const u = combined([
    [100 / expected, uncertainties?.weighed],
    [(100 * weighed) / expected ** 2, uncertainties?.expected],
  ]);
  return graded('Weighed charge’s deviation', '%', value, u, working, thresholds);
}
