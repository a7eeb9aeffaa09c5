import type { Checked } from '../outcome.ts';
import { plainNumber } from '../units/round.ts';
import {
  aboveZero,
  count,
  firstProblem,
  oneOf,
  statedUncertainties,
  type Uncertainties,
} from '../working/input.ts';
import { combined, gaveWorked, worked } from '../working/worked.ts';
import { type FlowUnits, flowUnits, type VentilationEdition, ventilationEditions } from './form.ts';
import type { VentilationFlow, VentilationForm } from './form.ts';

export interface Dwelling {
  edition: VentilationEdition;
  /** conditioned floor area: ft² in the inch-pound form, m² in the SI form */
  floorArea: number;
  /** bedrooms as counted; the equation adds one */
  bedrooms: number;
  uncertainties?: Uncertainties<'floorArea'>;
}

interface Coefficients {
  perArea: number;
  perPerson: number;
  equation: string;
  areaUnit: string;
}

/**
 * The whole-house rate that ASHRAE 62.2 requires, inch-pound form, cfm:
 * 2010: Q = 0.01 · A + 7.5 · (N + 1); 2013 to 2022: Q = 0.03 · A + 7.5 · (N + 1), with A in ft².
 * From 2013 on it is the total rate, of which infiltration may be credited (`requiredFanFlow`).
 * Problems: `not-above-zero`, `bad-count`, `unknown-choice`, `bad-uncertainty`. Never throws. Source: Equation
 * 4.1a as seen at https://up.codes/s/whole-house-mechanical-ventilation-system (2010, IRC) and
 * https://www.gettitle24.com/ (2013 and later); the standard's text was not seen.
 */
export function requiredRateInchPound(dwelling: Dwelling): Checked<VentilationFlow<'inch-pound'>> {
  const old = dwelling.edition === '2010';
  return rate(dwelling, 'inch-pound', {
    perArea: old ? 0.01 : 0.03,
    perPerson: 7.5,
    equation: '4.1a',
    areaUnit: 'ft²',
  });
}

/**
 * The same, SI form, L/s: 2010: Q = 0.05 · A + 3.5 · (N + 1); 2013 to 2022: Q = 0.15 · A + 3.5 · (N + 1), A in
 * m². The result lies 1 to 2 % below that of the inch-pound form and must not be mixed with it.
 * Problems and behaviour as `requiredRateInchPound`. Source: 2013 and later, Equation 4.1b as seen at
 * https://www.gettitle24.com/; the figures of 2010 from memory.
 */
export function requiredRateSi(dwelling: Dwelling): Checked<VentilationFlow<'si'>> {
  const old = dwelling.edition === '2010';
  return rate(dwelling, 'si', {
    perArea: old ? 0.05 : 0.15,
    perPerson: 3.5,
    equation: '4.1b',
    areaUnit: 'm²',
  });
}

function rate<F extends VentilationForm>(
  { edition, floorArea, bedrooms, uncertainties }: Dwelling,
  form: F,
  { perArea, perPerson, equation, areaUnit }: Coefficients,
): Checked<VentilationFlow<F>> {
  const wrong = firstProblem(
    oneOf('edition', 'The edition of ASHRAE 62.2', edition, ventilationEditions),
    aboveZero('floorArea', 'The conditioned floor area', floorArea, areaUnit),
    count('bedrooms', 'The number of bedrooms', bedrooms),
    statedUncertainties(uncertainties),
  );
  if (wrong) return wrong;
  const unit: FlowUnits[F] = flowUnits[form];
  const value = perArea * floorArea + perPerson * (bedrooms + 1);
  const working = `${perArea} × ${plainNumber(floorArea)} + ${perPerson} × (${bedrooms} + 1)`;
  const u = combined([[perArea, uncertainties?.floorArea]]);
  const steps = [{ label: 'Required whole-house rate', working, value, unit }];
  // Left to the person: the sentence is remembered, not seen, and more air is not always the right answer.
  const studio = 'no bedroom: the standard is remembered to count at least one (from memory); enter 1 for it';
  return gaveWorked(worked(unit, value, u, steps, bedrooms === 0 ? [studio] : []), {
    form,
    equation: `ASHRAE 62.2-${edition}, Equation ${equation} (${form})`,
  });
}
