import type { Tolerances } from './tolerances.ts';

/** A result of a test: its value and its expanded uncertainty (k = 2, or null when none is stated), in one unit. */
export interface Result {
  value: number;
  expanded: number | null;
}

export interface Agreement {
  /** second minus first */
  difference: number;
  /** what the tolerance alone allows */
  tolerance: number;
  /** tolerance plus both expanded uncertainties, combined as the root of the sum of their squares */
  allowed: number;
  agrees: boolean;
}

// A decimal that lies on the border must not fall to the other side by the last bit of a float.
const rounding = 1e-9;

/**
 * Whether a second rater's result agrees with the first: |second − first| is at most the tolerance plus the
 * combined expanded uncertainty √(U₁² + U₂²), all in the stored unit of the quantity. The two results are taken as
 * independent, for they come from two instruments on two days (JCGM 100:2008, 5.1.2; from memory). Null when the tolerances do
 * not know the quantity or a number is not finite. The tolerances carry their own marks.
 */
export function agreementOf(
  quantity: string,
  first: Result,
  second: Result,
  { quantities }: Pick<Tolerances, 'quantities'>,
): Agreement | null {
  const known = quantities.find((each) => each.quantity === quantity);
  if (!known || !Number.isFinite(first.value) || !Number.isFinite(second.value)) return null;
  const difference = second.value - first.value;
  const tolerance = Math.max(known.share * Math.abs(first.value), known.amount);
  const allowed = tolerance + Math.hypot(first.expanded ?? 0, second.expanded ?? 0);
  return { difference, tolerance, allowed, agrees: Math.abs(difference) <= allowed * (1 + rounding) };
}

export interface Limits {
  count: number;
  /** mean of the differences, in their unit */
  mean: number;
  /** standard deviation of the differences (n − 1); null for fewer than two */
  deviation: number | null;
  /** mean ± 1.96 deviations, within which about 95 % of differences lie; null for fewer than two */
  low: number | null;
  high: number | null;
}

/**
 * Mean difference and limits of agreement, mean ± 1.96 s (method of Bland and Altman, 1986; from memory). Takes
 * differences in one unit; null when there are none.
 */
export function limitsOfAgreement(differences: readonly number[]): Limits | null {
  const count = differences.length;
  if (count === 0) return null;
  const mean = differences.reduce((sum, each) => sum + each, 0) / count;
  if (count < 2) return { count, mean, deviation: null, low: null, high: null };
  const deviation = Math.sqrt(differences.reduce((sum, each) => sum + (each - mean) ** 2, 0) / (count - 1));
  return { count, mean, deviation, low: mean - 1.96 * deviation, high: mean + 1.96 * deviation };
}
