import type { Checked } from '../outcome.ts';
import { plainNumber } from '../units/round.ts';
import { aboveZero, firstProblem, statedUncertainties, zeroOrMore } from '../working/input.ts';
import type { Uncertainties } from '../working/input.ts';
import { combined, gaveWorked, worked } from '../working/worked.ts';
import { flowUnits, type FlowUnits, type VentilationFlow, type VentilationForm } from './form.ts';

/** Reference heights of the two forms, 8.2 ft and 2.5 m, seen with Equation 4-3 in a public code's docstring. */
const referenceHeight = { 'inch-pound': 8.2, si: 2.5 } as const;
const heightExponent = 0.4;
const perLeakage = 0.052;

export interface LeakageAndWeather {
  /** leakage flow at 50 Pa: cfm in the inch-pound form, L/s in the SI form; zero or more */
  leakageAt50: number;
  /** weather and shielding factor of the place, dimensionless, above zero; no table of it could be seen */
  weatherFactor: number;
  uncertainties?: Uncertainties<'leakageAt50' | 'weatherFactor' | 'height'>;
}

export interface LeakageAndHeight extends LeakageAndWeather {
  /** from the lowest floor to the highest ceiling: ft in the inch-pound form, m in the SI form */
  height: number;
}

/**
 * The effective annual infiltration by which 62.2-2019 and 2022 credit, inch-pound form, cfm:
 * Qinf = 0.052 · Q50 · wsf · (H / 8.2 ft)^0.4.
 * The uncertainty is given when that of `leakageAt50` is; height and weather factor count as exact unless theirs
 * is stated. Problems: `below-zero`, `not-above-zero`, `bad-uncertainty`. Never throws. Source: Equation 4-3 as
 * in a public code's docstring (seen; the standard's text was not).
 */
export function infiltrationInchPound(house: LeakageAndHeight): Checked<VentilationFlow<'inch-pound'>> {
  return byHeight(house, 'inch-pound', 'ft');
}

/** The same, SI form, L/s, with Q50 in L/s, H in m and 2.5 m. See `infiltrationInchPound`. */
export function infiltrationSi(house: LeakageAndHeight): Checked<VentilationFlow<'si'>> {
  return byHeight(house, 'si', 'm');
}

function byHeight<F extends VentilationForm>(
  house: LeakageAndHeight,
  form: F,
  lengthUnit: string,
): Checked<VentilationFlow<F>> {
  const { height, uncertainties } = house;
  const wrong = problemOf(house) ?? firstProblem(aboveZero('height', 'The height', height, lengthUnit));
  if (wrong) return wrong;
  const reference = referenceHeight[form];
  const factor = (height / reference) ** heightExponent;
  const stack = [(heightExponent / height) as number, uncertainties?.height ?? 0] as const;
  const shown = `(${plainNumber(height)} / ${reference})^${heightExponent}`;
  return infiltration(house, form, factor, shown, stack, `Equation 4-3 (${form})`);
}

/**
 * The factor for the height of a house by its storeys: storeys^0.4, dimensionless. The published list is the
 * same rounded to two decimals: 1 → 1.00, 1.5 → 1.18, 2 → 1.32, 2.5 → 1.44, 3 → 1.55.
 * @param stories 1 to 3 in halves Problems: `not-listed` (the list ends there). Never throws. Source: seen at
 * https://webarchive.library.unt.edu/web/20161225223239/https://sws.nrel.gov/calculation_infiltration_credit
 */
export function storyFactor(stories: number): Checked<number> {
  const factor = storyFactors.get(stories);
  if (factor !== undefined) return { ok: true, value: factor };
  const listed = [...storyFactors.keys()].join(', ');
  const message = `There is no factor for ${stories} storeys; listed are ${listed}. Use the height instead.`;
  return { ok: false, problem: { path: 'stories', code: 'not-listed', message } };
}

const storyFactors = new Map([
  [1, 1],
  [1.5, 1.18],
  [2, 1.32],
  [2.5, 1.44],
  [3, 1.55],
]);

/**
 * Infiltration by storeys instead of height, cfm: Qinf = 0.052 · wsf · S · Q50, with S of `storyFactor`.
 * Problems: as `infiltrationInchPound` and `storyFactor`. Never throws. Source: as `storyFactor`.
 */
export function infiltrationByStories(
  house: LeakageAndWeather & { stories: number },
): Checked<VentilationFlow<'inch-pound'>> {
  const factor = storyFactor(house.stories);
  if (!factor.ok) return factor;
  const wrong = problemOf(house);
  if (wrong) return wrong;
  const equation = 'story-factor form of the infiltration credit (inch-pound)';
  return infiltration(house, 'inch-pound', factor.value, plainNumber(factor.value), [0, 0], equation);
}

function problemOf({ leakageAt50, weatherFactor, uncertainties }: LeakageAndWeather) {
  return firstProblem(
    zeroOrMore('leakageAt50', 'The leakage at 50 Pa', leakageAt50, ''),
    aboveZero('weatherFactor', 'The weather and shielding factor', weatherFactor, ''),
    statedUncertainties(uncertainties),
  );
}

function infiltration<F extends VentilationForm>(
  { leakageAt50, weatherFactor, uncertainties }: LeakageAndWeather,
  form: F,
  factor: number,
  shown: string,
  [perHeight, heightUncertainty]: readonly [number, number],
  equation: string,
): Checked<VentilationFlow<F>> {
  const unit: FlowUnits[F] = flowUnits[form];
  const perFlow = perLeakage * weatherFactor * factor;
  const value = perFlow * leakageAt50;
  const u = combined([
    [perFlow, uncertainties?.leakageAt50],
    [value / weatherFactor, uncertainties?.weatherFactor ?? 0],
    [value * perHeight, heightUncertainty],
  ]);
  const working = `${perLeakage} × ${plainNumber(leakageAt50)} × ${plainNumber(weatherFactor)} × ${shown}`;
  const steps = [{ label: 'Effective annual infiltration', working, value, unit }];
  return gaveWorked(worked(unit, value, u, steps), { form, equation });
}
