import binomialCdf from '@stdlib/stats-base-dists-binomial-cdf';
import chisquareCdf from '@stdlib/stats-base-dists-chisquare-cdf';
import normalCdf from '@stdlib/stats-base-dists-normal-cdf';
import studentCdf from '@stdlib/stats-base-dists-t-cdf';

/** P(X ≤ x) of chi-square with `freedom` degrees. Library's distribution; NaN outside its domain. */
export const chisquareBelow = (x: number, freedom: number): number => chisquareCdf(x, freedom);

/**
 * P(X ≥ x) of chi-square. Far out, where 1 − CDF is lost in rounding, Wilson and Hilferty's normal approximation
 * of the cube root (from memory) says how small it is; it is used only below 1e-12.
 */
export function chisquareAbove(x: number, freedom: number): number {
  const direct = 1 - chisquareCdf(x, freedom);
  if (direct > 1e-12) return direct;
  const part = 2 / (9 * freedom);
  return normalCdf(-(Math.cbrt(x / freedom) - (1 - part)) / Math.sqrt(part), 0, 1);
}

/** P(X ≥ k) of `n` trials with `chance` each; summed from the tail when 1 − CDF would round to nothing. */
export function binomialAtLeast(k: number, n: number, chance: number): number {
  if (k <= 0) return 1;
  if (k > n) return 0;
  const direct = 1 - binomialCdf(k - 1, n, chance);
  if (direct > 1e-12) return direct;
  let term = 0;
  for (let i = 0; i < k; i += 1) term += Math.log(n - i) - Math.log(i + 1);
  let log = term + k * Math.log(chance) + (n - k) * Math.log1p(-chance);
  let sum = 0;
  for (let i = k; i <= n; i += 1) {
    sum += Math.exp(log);
    log += Math.log(n - i) - Math.log(i + 1) + Math.log(chance) - Math.log1p(-chance);
  }
  return Math.min(1, sum);
}

/** Two-sided p-value of Student's t. */
export const studentBeyond = (t: number, freedom: number): number => 2 * studentCdf(-Math.abs(t), freedom);
