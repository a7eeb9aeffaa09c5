import type { Checked } from '../outcome.ts';
import { plainNumber } from '../units/round.ts';
import { aboveZero, firstProblem, share } from '../working/input.ts';
import { combined, gaveWorked, type Worked, worked } from '../working/worked.ts';
import { type FlowOfForm, flowProblem, flowUnits, type VentilationFlow } from './form.ts';

export interface Cycle {
  /** share of the cycle in which the fan runs, above 0 to 1 */
  runShare: number;
  /** length of one on-and-off cycle, h, above zero */
  cycleHours: number;
  /** air changes per hour that the fan makes while it runs, above zero */
  airChangesRunning: number;
}

/**
 * How well a fan that runs part of the time dilutes a steady source, compared with the same air spread evenly,
 * 0 to 1: the steady rate that would give the same mean concentration over the mean rate.
 * With f the share, T the cycle, A the air changes while running and d = (1 − f) · T:
 * effectiveness = T / (f · ((T + d) + (A · d² / 2) · coth(A · f · T / 2))).
 * Nothing flows while the fan is off. Problems: `bad-share`, `not-above-zero`. Never throws.
 * Source: derived here from the mass balance of one well-mixed room (computed independently; the tests step
 * through the cycle in time). It is not the table of any edition of 62.2, whose text was not seen.
 */
export function intermittentEffectiveness(cycle: Cycle): Checked<Worked<'1'>> {
  const { runShare: f, cycleHours: hours, airChangesRunning: changes } = cycle;
  const wrong = firstProblem(
    share('runShare', 'The share of the time in which the fan runs', f),
    aboveZero('cycleHours', 'The length of a cycle', hours, 'h'),
    aboveZero('airChangesRunning', 'The air change rate while running', changes, '1/h'),
  );
  if (wrong) return wrong;
  const off = (1 - f) * hours;
  // Without a pause the second term is zero; the hyperbolic cotangent of a tiny number must not spoil it.
  const pause = off === 0 ? 0 : (changes * off ** 2) / 2 / Math.tanh((changes * f * hours) / 2);
  const value = Math.min(1, hours / (f * (hours + off + pause)));
  const working = `${plainNumber(hours)} / (${plainNumber(f)} × (${plainNumber(hours + off)} + ${plainNumber(pause)}))`;
  const step = { label: 'Effectiveness of intermittent operation', working, value, unit: '1' };
  return gaveWorked(worked('1', value, null, [step]), {});
}

/**
 * The flow that a fan needs while it runs so that it counts as much as a continuous rate, in the form and unit
 * of that rate: Q = rate / (effectiveness · share).
 * @param effectiveness above 0 to 1, from the edition's table or from `intermittentEffectiveness`
 * Problems: `bad-share`, `not-above-zero`, `unknown-choice`, `bad-uncertainty`. Never throws.
 * Source: 62.2-2010, Equation 4.2 (from memory).
 */
export function intermittentFlow(
  rate: FlowOfForm,
  runShare: number,
  effectiveness: number,
): Checked<VentilationFlow> {
  const wrong =
    flowProblem('rate', 'The continuous rate', rate) ??
    firstProblem(
      share('runShare', 'The share of the time in which the fan runs', runShare),
      share('effectiveness', 'The effectiveness', effectiveness),
    );
  if (wrong) return wrong;
  const unit = flowUnits[rate.form];
  const value = rate.value / (effectiveness * runShare);
  const working = `${plainNumber(rate.value)} / (${plainNumber(effectiveness)} × ${plainNumber(runShare)})`;
  const u = combined([[1 / (effectiveness * runShare), rate.standardUncertainty]]);
  return gaveWorked(worked(unit, value, u, [{ label: 'Flow while running', working, value, unit }]), {
    form: rate.form,
    equation: `ASHRAE 62.2-2010, Equation 4.2, from memory (${rate.form})`,
  });
}
