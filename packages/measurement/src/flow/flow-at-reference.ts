import { type Checked, computed, problem } from '../outcome.ts';
import type { Step } from '../types.ts';
import { plainNumber } from '../units/round.ts';

/** How far from the reference pressure a reading may be before the outcome remarks on it, Pa. From memory. */
export const remarkBeyondPa = 0.5;

export interface FlowAtReference {
  /** flow at the reference pressure, in the unit of the flow given */
  flow: number;
  /** (reference / pressure)^exponent; an uncertainty of the flow scales by the same factor */
  factor: number;
  step: Step;
  /** e.g. "extrapolated from 15 Pa"; null when the pressure was within `remarkBeyondPa` of the reference */
  remark: string | null;
}

export interface ReferenceTarget {
  /** pressure at which the flow is wanted, Pa, positive */
  reference: number;
  /** pressure exponent, dimensionless, positive */
  exponent: number;
  /** lowest share of the reference from which the flow is still taken, e.g. 0.4 */
  lowestShare: number;
  /** label of the working, e.g. `Leakage at 25 Pa` */
  label: string;
}

/**
 * Flow at a reference pressure from the flow at the pressure reached: Q_ref = Q · (P_ref / |P|)^n.
 * @param flow cfm at the pressure reached, zero or more
 * @param pressure pressure reached, Pa; its sign is dropped
 * Problems: `not-a-number`, `negative`, `zero-pressure`, `below-lowest-pressure` (below `lowestShare` of the
 * reference: the error of an assumed exponent grows too large), `bad-target`. Never throws.
 * Source: algebra of the power law; the factor is printed in hardware manuals (docs/sources.md, Measurement
 * 3); the table of factors in the tests was computed independently.
 */
export function flowAtReference(
  flow: number,
  pressure: number,
  target: ReferenceTarget,
): Checked<FlowAtReference> {
  const { reference, exponent, lowestShare, label } = target;
  if (![reference, exponent, lowestShare].every((part) => part > 0 && part < Infinity)) {
    return problem('', 'bad-target', 'The reference pressure, exponent and lowest share must be above zero.');
  }
  if (!Number.isFinite(flow)) return problem('values.flow', 'not-a-number', 'The flow is not a number.');
  if (flow < 0)
    return problem('values.flow', 'negative', `The flow is ${flow} cfm, but it cannot be negative.`);
  if (!Number.isFinite(pressure)) return problem('', 'not-a-number', 'The pressure reached is not a number.');
  const reached = Math.abs(pressure);
  if (reached === 0) {
    return problem(
      '',
      'zero-pressure',
      `The pressure reached is 0 Pa: nothing follows for ${reference} Pa. Check the tubing and the fan.`,
    );
  }
  const lowest = reference * lowestShare;
  if (reached < lowest) {
    return problem(
      '',
      'below-lowest-pressure',
      `The pressure reached is ${plainNumber(reached)} Pa; below ${plainNumber(lowest)} Pa nothing is taken to ` +
        `${reference} Pa. Find the large leak or use a larger opening, then read again.`,
    );
  }
  const factor = (reference / reached) ** exponent;
  const value = flow * factor;
  const working = `${plainNumber(flow)} × (${reference} / ${plainNumber(reached)})^${exponent.toFixed(2)}`;
  return computed({
    flow: value,
    factor,
    step: { label, working, value, unit: 'cfm' },
    remark: remarkOn(reached, reference),
  });
}

function remarkOn(reached: number, reference: number): string | null {
  if (Math.abs(reached - reference) <= remarkBeyondPa) return null;
  return `${reached < reference ? 'extrapolated' : 'corrected'} from ${plainNumber(reached)} Pa`;
}
