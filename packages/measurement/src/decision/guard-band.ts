import { normalCdf } from '@countercheck/distributions';
import { type Checked, computed, problem } from '../outcome.ts';
import { limitProblem } from './chance.ts';

export interface AcceptanceLimits {
  /** null when there is no such limit */
  low: number | null;
  high: number | null;
  /** width of the guard band, w = factor × U */
  width: number;
}

/**
 * The limits that a result is held against when a guard band is kept: low + w and high − w with
 * w = factor × U, all in the unit of the limits. A factor of 0 is simple acceptance; a negative factor moves
 * the limits outwards, so that only a result that surely fails is refused.
 * @param expandedUncertainty U of the result (95 %), zero or more
 * @param factor dimensionless, e.g. 1 for w = U
 * Problems: `not-a-number`, `negative-uncertainty`, `limits-reversed`, and `nothing-acceptable` when the guard
 * bands meet, so that no result could be accepted. Never throws. Source: AL = TL − w, ILAC G8:09/2019, 4
 * (docs/sources.md, Measurement 15).
 */
export function guardBandLimits(given: {
  low: number | null;
  high: number | null;
  expandedUncertainty: number;
  factor: number;
}): Checked<AcceptanceLimits> {
  const { low, high, expandedUncertainty: u, factor } = given;
  if (!Number.isFinite(u) || !Number.isFinite(factor))
    return problem('factor', 'not-a-number', 'The uncertainty or the factor is not a number.');
  if (u < 0) return problem('expandedUncertainty', 'negative-uncertainty', `The uncertainty is ${u}.`);
  const limits = limitProblem(low, high);
  if (limits) return limits;
  const width = factor * u;
  const acceptance = {
    low: low === null ? null : low + width,
    high: high === null ? null : high - width,
    width,
  };
  if (acceptance.low !== null && acceptance.high !== null && acceptance.low > acceptance.high) {
    const message = `A guard band of ${width} on each side leaves nothing between ${low} and ${high}. Measure more closely.`;
    return problem('factor', 'nothing-acceptable', message);
  }
  return computed(acceptance);
}

/**
 * The largest chance that a result accepted with a guard band of w = factor × U lies beyond the limit, which
 * is the chance at the edge of acceptance: Φ(−factor × k), dimensionless, with U = k · u.
 * @param coverageFactor k, above zero
 * Problems: `not-a-number`, `bad-coverage-factor`. Never throws. Source: table of guard bands and risks of a
 * laboratory's page after ILAC G8 (seen): below 50 % for w = 0, 5 % for 0.83 U (ISO 14253-1:2017), 2.5 % for
 * U, 0.16 % for 1.5 U.
 */
export function guardBandRisk(factor: number, coverageFactor = 2): Checked<number> {
  if (!Number.isFinite(factor)) return problem('factor', 'not-a-number', 'The factor is not a number.');
  if (!(coverageFactor > 0 && coverageFactor < Infinity))
    return problem('coverageFactor', 'bad-coverage-factor', 'The coverage factor must be above zero.');
  return computed(normalCdf(-factor * coverageFactor));
}

/**
 * The share of the tolerance inside which results are accepted, by the ratio of tolerance to expanded
 * uncertainty (test uncertainty ratio, TUR = T / U, dimensionless): `root-sum-square` √(1 − 1/TUR²),
 * `full-uncertainty` 1 − 1/TUR, `eased` 1.25 − 1/TUR (never above 1), `two-percent`
 * 1 − (1.04 − e^(0.38 · ln TUR − 0.54)) / TUR, which keeps false acceptance at 2 % or below (never above 1).
 * Problems: `bad-ratio` for a ratio that is not above 1. Never throws. Source: documentation of an open
 * uncertainty calculator (seen; docs/sources.md, Measurement 15).
 */
export function guardedShare(
  method: 'root-sum-square' | 'full-uncertainty' | 'eased' | 'two-percent',
  ratio: number,
): Checked<number> {
  if (!(ratio > 1 && ratio < Infinity))
    return problem('ratio', 'bad-ratio', `The ratio is ${ratio}; it must be above 1.`);
  if (method === 'root-sum-square') return computed(Math.sqrt(1 - 1 / ratio ** 2));
  if (method === 'full-uncertainty') return computed(1 - 1 / ratio);
  if (method === 'eased') return computed(Math.min(1, 1.25 - 1 / ratio));
  const multiplier = 1.04 - Math.exp(0.38 * Math.log(ratio) - 0.54);
  return computed(Math.min(1, 1 - multiplier / ratio));
}
