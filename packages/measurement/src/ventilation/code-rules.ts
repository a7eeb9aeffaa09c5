import type { Checked } from '../outcome.ts';
import { plainNumber } from '../units/round.ts';
import { seen } from '../working/figure-source.ts';
import { firstProblem, zeroOrMore } from '../working/input.ts';
import { combined, gaveWorked, worked } from '../working/worked.ts';
import { type FlowOfForm, flowProblem, flowUnits, type VentilationFlow } from './form.ts';

/** Two rules of the mechanical code on whole-house ventilation, editions from 2012 on. */
export const mechanicalCodeRules = {
  /** a house below this many air changes per hour at 50 Pa needs mechanical ventilation */
  tightBelow: {
    value: 5,
    unit: '1/h',
    source: seen('IMC 2015 401.2 as at https://up.codes/viewer/washington/imc-2015/chapter/4/ventilation'),
  },
  /** share that a balanced and distributed system leaves of the rate */
  balancedAndDistributed: {
    value: 0.7,
    source: seen('IMC 403.3.2.1.1 as at https://masterbuildconsulting.com/daily-code-talk/imc-403-part-4/'),
  },
} as const;

/**
 * Whether a house is so tight that the mechanical code asks for mechanical ventilation: below 5 air changes per
 * hour at 50 Pa. A jurisdiction may ask for it in every house.
 * @param airChangesAt50 1/h, zero or more Problems: `below-zero`. Never throws. Source: `mechanicalCodeRules`.
 */
export function needsMechanicalVentilation(airChangesAt50: number): Checked<boolean> {
  const wrong = firstProblem(
    zeroOrMore('airChangesAt50', 'The air change rate at 50 Pa', airChangesAt50, '1/h'),
  );
  return wrong ?? { ok: true, value: airChangesAt50 < mechanicalCodeRules.tightBelow.value };
}

/**
 * The whole-house rate of a system that is balanced and reaches every room: rate × 0.7, in the form and unit of
 * the rate. Problems: `not-above-zero`, `unknown-choice`, `bad-uncertainty`. Never throws. Source:
 * `mechanicalCodeRules`; it belongs to the mechanical code's rate, not to 62.2.
 */
export function rateForBalancedAndDistributed(rate: FlowOfForm): Checked<VentilationFlow> {
  const wrong = flowProblem('rate', 'The rate', rate);
  if (wrong) return wrong;
  const { value: left } = mechanicalCodeRules.balancedAndDistributed;
  const unit = flowUnits[rate.form];
  const value = rate.value * left;
  const working = `${plainNumber(rate.value)} × ${left}`;
  const step = { label: 'Rate of a balanced, distributed system', working, value, unit };
  return gaveWorked(worked(unit, value, combined([[left, rate.standardUncertainty]]), [step]), {
    form: rate.form,
    equation: `IMC 403.3.2.1.1 (${rate.form})`,
  });
}
