import { normalCdf } from '@countercheck/distributions';
import { type Checked, computed, problem } from '../outcome.ts';

/** A result and the limits it is held against, all in one unit. */
export interface HeldAgainst {
  value: number;
  /** standard uncertainty of the value, zero or more */
  standardUncertainty: number;
  /** lower limit; null when there is none */
  low: number | null;
  /** upper limit; null when there is none */
  high: number | null;
}

/** Chances from 0 to 1 that the true value lies there. */
export interface Chances {
  below: number;
  above: number;
  /** below the lower or above the upper limit */
  beyond: number;
  /** conformance probability: between the limits */
  within: number;
}

/**
 * The chance that the true value lies beyond a limit, when it is normally distributed about the result:
 * below = Φ((low − value) / u), above = Φ((value − high) / u), within = 1 − below − above; dimensionless.
 * With u = 0 the chances are 0 or 1, and a value on the limit conforms. No limit at all gives `within` 1.
 * Problems: `not-a-number`, `negative-uncertainty`, `limits-reversed`. Never throws.
 * Source: JCGM 106:2012, 7 (from memory). Checked: −5.47 with u 0.05 against −5.40 conforms with Φ(1.40)
 * (example from memory, figure computed independently).
 */
export function chanceBeyond(held: HeldAgainst): Checked<Chances> {
  const { value, standardUncertainty: u, low, high } = held;
  if (!Number.isFinite(value) || !Number.isFinite(u))
    return problem('value', 'not-a-number', 'The value or its uncertainty is not a number.');
  if (u < 0) return problem('standardUncertainty', 'negative-uncertainty', `The uncertainty is ${u}.`);
  const limits = limitProblem(low, high);
  if (limits) return limits;
  const below = low === null ? 0 : chanceThat(low - value, u);
  const above = high === null ? 0 : chanceThat(value - high, u);
  return computed({ below, above, beyond: below + above, within: 1 - below - above });
}

/** The problem of two limits that cannot hold together, or null. Never throws. */
export function limitProblem(
  low: number | null,
  high: number | null,
): { ok: false; problem: { path: string; code: string; message: string } } | null {
  if (Number.isNaN(low) || Number.isNaN(high))
    return problem('limits', 'not-a-number', 'A limit is not a number.');
  if (low !== null && high !== null && low > high)
    return problem('limits', 'limits-reversed', `The lower limit ${low} is above the upper limit ${high}.`);
  return null;
}

// Φ(distance / u), where u = 0 leaves no doubt and a value on the limit conforms.
function chanceThat(distance: number, u: number): number {
  if (u === 0) return distance > 0 ? 1 : 0;
  return normalCdf(distance / u);
}
