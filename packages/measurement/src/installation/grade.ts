import { type Checked, problem } from '../outcome.ts';
import { plainNumber } from '../units/round.ts';
import type { FigureSource } from '../working/figure-source.ts';
import { aboveZero, finite, firstProblem, statedUncertainties, zeroOrMore } from '../working/input.ts';
import type { Uncertainties } from '../working/input.ts';
import { combined, gaveWorked, type Worked, worked } from '../working/worked.ts';
import { type Grade, type GradeThresholds, grades310, type Span } from './thresholds.ts';

/** A graded figure. `confirmed: false` in the source has to be shown with the grade. */
export interface Graded<U extends string = string> extends Worked<U> {
  grade: Grade;
  thresholds: GradeThresholds;
  source: FigureSource;
}

/**
 * The grade of a figure: I inside the first span, II inside the second, III outside both. Ends are included, with
 * room for binary arithmetic only (1e-9). Gives III for NaN. Never throws.
 */
export function gradeOf(value: number, { gradeI, gradeII }: GradeThresholds): Grade {
  if (inside(value, gradeI)) return 'I';
  return gradeII && inside(value, gradeII) ? 'II' : 'III';
}

function inside(value: number, { low, high }: Span): boolean {
  const room = 1e-9;
  return value >= (low ?? -Infinity) - room && value <= (high ?? Infinity) + room;
}

/**
 * Grade of the blower's airflow by its deviation from the design, %: (measured − design) / design · 100.
 * @param airflow measured and design flow in one unit; design above zero
 * @param thresholds the company's own in place of `grades310.airflowDeviation`, which is not confirmed
 * Uncertainty when that of the measured flow is known; the design is exact. Problems: `below-zero`,
 * `not-above-zero`, `bad-uncertainty`. Never throws. Source: ANSI/RESNET/ACCA 310-2020 (from memory).
 */
export function gradeAirflow(
  airflow: { measured: number; design: number; uncertainties?: Uncertainties<'measured'> },
  thresholds: GradeThresholds = grades310.airflowDeviation,
): Checked<Graded<'%'>> {
  const { measured, design, uncertainties } = airflow;
  const wrong = firstProblem(
    zeroOrMore('measured', 'The measured airflow', measured, ''),
    aboveZero('design', 'The designed airflow', design, ''),
    statedUncertainties(uncertainties),
  );
  if (wrong) return wrong;
  const value = ((measured - design) / design) * 100;
  const working = `(${plainNumber(measured)} − ${plainNumber(design)}) / ${plainNumber(design)} × 100`;
  const u = combined([[100 / design, uncertainties?.measured]]);
  return graded('Airflow’s deviation from the design', '%', value, u, working, thresholds);
}

/**
 * Grade of the blower's draw, W/cfm: watts / airflow.
 * @param blower watts zero or more, airflow in cfm above zero, both in the same state of the equipment
 * @param thresholds the company's own in place of `grades310.wattsPerCfm`, which is not confirmed
 * Uncertainty when both are known. Problems: `below-zero`, `not-above-zero`, `bad-uncertainty`. Never throws.
 * Source: ANSI/RESNET/ACCA 310-2020 (from memory).
 */
export function gradeFanWatts(
  blower: { watts: number; airflow: number; uncertainties?: Uncertainties<'watts' | 'airflow'> },
  thresholds: GradeThresholds = grades310.wattsPerCfm,
): Checked<Graded<'W/cfm'>> {
  const { watts, airflow, uncertainties } = blower;
  const wrong = firstProblem(
    zeroOrMore('watts', 'The blower’s draw', watts, 'W'),
    aboveZero('airflow', 'The airflow', airflow, 'cfm'),
    statedUncertainties(uncertainties),
  );
  if (wrong) return wrong;
  const value = watts / airflow;
  const u = combined([
    [1 / airflow, uncertainties?.watts],
    [value / airflow, uncertainties?.airflow],
  ]);
  const working = `${plainNumber(watts)} / ${plainNumber(airflow)}`;
  return graded('Blower’s draw per airflow', 'W/cfm', value, u, working, thresholds);
}

/**
 * Grade of total duct leakage, cfm at 25 Pa per 100 ft² of conditioned floor.
 * @param leakage above or equal to zero, e.g. of `cfmPer100ft2`
 * @param thresholds the company's own. ANSI/RESNET/ACCA 310-2020 has Table 2a and 3a for it, whose figures were
 * not seen, so without them the answer is the problem `limits-not-set`
 * Other problems: `below-zero`, `bad-uncertainty`. Never throws.
 */
export function gradeDuctLeakage(
  leakage: number,
  thresholds: GradeThresholds | null = grades310.ductLeakage,
  standardUncertainty: number | null = null,
): Checked<Graded<'cfm/100ft2'>> {
  const wrong = firstProblem(
    zeroOrMore('leakage', 'The duct leakage', leakage, 'cfm per 100 ft²'),
    statedUncertainties({ leakage: standardUncertainty }),
  );
  if (wrong) return wrong;
  if (!thresholds) {
    return problem(
      'thresholds',
      'limits-not-set',
      'The duct tables of the standard were not seen; the company has to set the limits of the grades first.',
    );
  }
  const u = combined([[1, standardUncertainty]]);
  return graded('Duct leakage', 'cfm/100ft2', leakage, u, plainNumber(leakage), thresholds);
}

/**
 * Grade of any deviation by given thresholds, in their unit; the common end of the functions above and of the
 * charge. Problems: `not-a-number`. Never throws.
 */
export function graded<U extends string>(
  label: string,
  unit: U,
  value: number,
  u: number | null,
  working: string,
  thresholds: GradeThresholds,
): Checked<Graded<U>> {
  const wrong = firstProblem(finite('value', label, value, unit));
  if (wrong) return wrong;
  const { source } = thresholds;
  const remarks = source.confirmed
    ? []
    : ['the limits of the grades are not confirmed; the company sets them'];
  return gaveWorked(worked(unit, value, u, [{ label, working, value, unit }], remarks), {
    grade: gradeOf(value, thresholds),
    thresholds,
    source,
  });
}
