import type { Checked } from '../outcome.ts';
import { plainNumber } from '../units/round.ts';
import { aboveZero, firstProblem, statedUncertainties, zeroOrMore } from '../working/input.ts';
import type { Uncertainties } from '../working/input.ts';
import { combined, gaveWorked, type Worked, worked } from '../working/worked.ts';
import type { VentilationFlow } from './form.ts';

const squareInchesPerSquareFoot = 144;

export interface LeakageArea {
  /** effective leakage area at 4 Pa with a discharge coefficient of 1, in², zero or more */
  leakageArea: number;
  /** conditioned floor area, ft² */
  floorArea: number;
  /** from the lowest floor to the highest ceiling, ft */
  height: number;
  uncertainties?: Uncertainties<'leakageArea' | 'floorArea' | 'height' | 'weatherFactor'>;
}

/**
 * Normalized leakage, dimensionless: NL = 1000 · (ELA / A) · (H / 8.2 ft)^0.4, both areas in one unit.
 * The uncertainty is given when that of `leakageArea` is; the others count as exact unless theirs is stated.
 * Problems: `below-zero`, `not-above-zero`, `bad-uncertainty`. Never throws. Source: 62.2-2013 and 2016, 4.1.2
 * (from memory).
 */
export function normalizedLeakage(house: LeakageArea): Checked<Worked<'1'>> {
  const { leakageArea, floorArea, height, uncertainties } = house;
  const wrong = firstProblem(
    zeroOrMore('leakageArea', 'The effective leakage area', leakageArea, 'in²'),
    aboveZero('floorArea', 'The conditioned floor area', floorArea, 'ft²'),
    aboveZero('height', 'The height', height, 'ft'),
    statedUncertainties(uncertainties),
  );
  if (wrong) return wrong;
  const perArea = ((1000 / squareInchesPerSquareFoot) * (height / 8.2) ** 0.4) / floorArea;
  const value = perArea * leakageArea;
  const u = combined([
    [perArea, uncertainties?.leakageArea],
    [value / floorArea, uncertainties?.floorArea ?? 0],
    [(0.4 * value) / height, uncertainties?.height ?? 0],
  ]);
  const working =
    `1000 × (${plainNumber(leakageArea)} / 144 / ${plainNumber(floorArea)}) × ` +
    `(${plainNumber(height)} / 8.2)^0.4`;
  return gaveWorked(worked('1', value, u, [{ label: 'Normalized leakage', working, value, unit: '1' }]), {});
}

/**
 * The effective annual infiltration by normalized leakage, cfm: Qinf = NL · wsf · A / 7.3, A in ft². This is the
 * route of 62.2-2013 and 2016; it gives within 1 % what `infiltrationInchPound` gives for a house with an exponent
 * of 0.65.
 * Problems and uncertainty as `normalizedLeakage`, and `not-above-zero` for the weather factor. The floor area
 * cancels out, so its uncertainty does not enter. Never throws. Source: as `normalizedLeakage`.
 */
export function infiltrationByNormalizedLeakage(
  house: LeakageArea & { weatherFactor: number },
): Checked<VentilationFlow<'inch-pound'>> {
  const { floorArea, weatherFactor, uncertainties } = house;
  const wrong = firstProblem(
    aboveZero('weatherFactor', 'The weather and shielding factor', weatherFactor, ''),
  );
  if (wrong) return wrong;
  const leakage = normalizedLeakage({ ...house, uncertainties: { ...uncertainties, floorArea: 0 } });
  if (!leakage.ok) return leakage;
  const factor = (weatherFactor * floorArea) / 7.3;
  const value = leakage.value.value * factor;
  const u = combined([
    [factor, leakage.value.standardUncertainty],
    [value / weatherFactor, uncertainties?.weatherFactor ?? 0],
  ]);
  const working = `${plainNumber(leakage.value.value, 5)} × ${plainNumber(weatherFactor)} × ${plainNumber(floorArea)} / 7.3`;
  const step = { label: 'Effective annual infiltration', working, value, unit: 'cfm' };
  return gaveWorked(worked('cfm', value, u, [...leakage.value.steps, step]), {
    form: 'inch-pound' as const,
    equation: 'ASHRAE 62.2-2013 and 2016, 4.1.2, normalized leakage, from memory (inch-pound)',
  });
}
