import { errorBudget, type ErrorBudget } from '../instruments/error-budget.ts';
import { type Checked, computed, problem } from '../outcome.ts';
import { type FlowAtReference, flowAtReference, type ReferenceTarget } from './flow-at-reference.ts';

/** Standard uncertainties of what goes into a flow at a reference pressure; 0 for exact. */
export interface ReferenceUncertainties {
  /** of the flow, cfm */
  flow: number;
  /** of the pressure reached, Pa */
  pressure: number;
  /** of the assumed exponent, dimensionless */
  exponent: number;
}

export interface BudgetedFlow extends FlowAtReference {
  /** of the flow at the reference pressure, cfm */
  budget: ErrorBudget;
}

/**
 * `flowAtReference` with its error budget (cfm): the flow's uncertainty grows by the same factor, that of the
 * pressure enters as n · u(P) / P, and that of an exponent which is only assumed as |ln(P_ref / P)| · u(n) – nothing
 * at the reference pressure, the most in what was taken furthest.
 * Problems: those of `flowAtReference` and `errorBudget`. Never throws. Source: JCGM 100, 5.1.2 (from memory), checked
 * by simulation.
 */
export function budgetedFlowAtReference(
  flow: number,
  pressure: number,
  target: ReferenceTarget,
  uncertainties: ReferenceUncertainties,
): Checked<BudgetedFlow> {
  const found = flowAtReference(flow, pressure, target);
  if (!found.ok) return found;
  const { flow: value, factor } = found.value;
  const reached = Math.abs(pressure);
  const budget = errorBudget('cfm', [
    { label: 'Error of the flow', size: uncertainties.flow, shape: 'standard', sensitivity: factor },
    {
      label: 'Error of the pressure reached',
      size: uncertainties.pressure,
      shape: 'standard',
      sensitivity: (target.exponent * value) / reached,
    },
    {
      label: 'Error of the assumed exponent',
      size: uncertainties.exponent,
      shape: 'standard',
      sensitivity: value * Math.log(target.reference / reached),
    },
  ]);
  return budget.ok ? computed({ ...found.value, budget: budget.value }) : budget;
}

/**
 * By how much the flow at the reference pressure would be another if the exponent were another than assumed, % of
 * the flow stated: (P_ref / |P|)^(n_true − n_assumed) − 1. Above zero, more leaks than stated.
 * @param pressure reached, Pa @param exponent that the leaks really have, dimensionless, above zero
 * Problems: `zero-pressure` (no number falls here too), `bad-exponent`, `bad-target`. Never throws. Source: algebra of
 * the power law, as printed in hardware manuals (docs/sources.md, Measurement 3); the table of the tests was computed
 * independently.
 */
export function exponentError(pressure: number, exponent: number, target: ReferenceTarget): Checked<number> {
  const reached = Math.abs(pressure);
  if (!(reached > 0 && reached < Infinity)) {
    return problem('pressure', 'zero-pressure', `The pressure is ${pressure} Pa; it must not be zero.`);
  }
  if (!(exponent > 0 && exponent < Infinity)) {
    return problem('exponent', 'bad-exponent', `The exponent is ${exponent}; it must be above zero.`);
  }
  if (![target.reference, target.exponent].every((part) => part > 0 && part < Infinity)) {
    return problem('', 'bad-target', 'The reference pressure and exponent must be above zero.');
  }
  const error = 100 * ((target.reference / reached) ** (exponent - target.exponent) - 1);
  return computed(error + 0);
}
