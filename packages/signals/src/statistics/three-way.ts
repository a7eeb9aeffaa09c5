import normalCdf from '@stdlib/stats-base-dists-normal-cdf';

/** A trial that scores `low` with one chance, `high` with another, and nothing otherwise. */
export interface ThreeWay {
  low: number;
  high: number;
  chanceOfLow: number;
  chanceOfHigh: number;
}

/** Mean and variance of the sum of independent trials, in the unit of the scores. Never throws. */
export function moments(trials: readonly ThreeWay[]): { mean: number; variance: number } {
  let [mean, variance] = [0, 0];
  for (const { low, high, chanceOfLow, chanceOfHigh } of trials) {
    const first = chanceOfLow * low + chanceOfHigh * high;
    mean += first;
    variance += chanceOfLow * low ** 2 + chanceOfHigh * high ** 2 - first ** 2;
  }
  return { mean, variance };
}

/** The logarithm of the moment generating function at s, with its first two derivatives. */
function cumulants(trials: readonly ThreeWay[], s: number): [number, number, number] {
  let [k, k1, k2] = [0, 0, 0];
  for (const { low, high, chanceOfLow, chanceOfHigh } of trials) {
    const [a, b] = [chanceOfLow * Math.exp(s * low), chanceOfHigh * Math.exp(s * high)];
    const all = 1 - chanceOfLow - chanceOfHigh + a + b;
    const first = (a * low + b * high) / all;
    k += Math.log(all);
    k1 += first;
    k2 += (a * low ** 2 + b * high ** 2) / all - first ** 2;
  }
  return [k, k1, k2];
}

/** Slopes beyond this are not tried; a sum that needs a steeper one is the largest or smallest there is. */
const steepest = 40;
/** Within so many standard deviations of the mean the formula divides nothing by nothing. */
const middle = 0.05;

/**
 * P(sum ≥ t) of independent trials, by the saddlepoint approximation of Lugannani and Rice (Advances in Applied
 * Probability 12, 1980; from memory), which stays right to some percent far out in a tail, where a normal
 * approximation is wrong by powers of ten; a test holds it against the exact distribution.
 * @param t a sum of scores
 * @returns 0 to 1; 0 or 1 when the trials leave nothing to chance. Never throws.
 */
export function sumAtLeast(trials: readonly ThreeWay[], t: number): number {
  const { mean, variance } = moments(trials);
  if (variance <= 0) return t > mean ? 0 : 1;
  const plain = (t - mean) / Math.sqrt(variance);
  if (Math.abs(plain) < middle) return normalCdf(-plain, 0, 1);
  let [from, to] = plain > 0 ? [0, steepest] : [-steepest, 0];
  let s = Math.max(from, Math.min(to, plain / Math.sqrt(variance)));
  for (let i = 0; i < 60; i += 1) {
    const [, k1, k2] = cumulants(trials, s);
    if (k1 < t) from = s;
    else to = s;
    const newton = s + (t - k1) / k2;
    const next = newton > from && newton < to ? newton : (from + to) / 2;
    if (Math.abs(next - s) < 1e-9 * (1 + Math.abs(s))) break;
    s = next;
  }
  const [k, , k2] = cumulants(trials, s);
  const u = s * Math.sqrt(k2);
  // At the largest sum there is, nothing is left to vary: Chernoff's bound, which is exact there in the limit.
  if (!(Math.abs(u) > 1e-6)) return s > 0 ? Math.min(1, Math.exp(k - s * t)) : 1;
  const w = Math.sign(s) * Math.sqrt(Math.max(0, 2 * (s * t - k)));
  if (w === 0) return normalCdf(-plain, 0, 1);
  const density = Math.exp(-(w ** 2) / 2) / Math.sqrt(2 * Math.PI);
  const tail = normalCdf(-w, 0, 1) + density * (1 / u - 1 / w);
  return Math.min(1, Math.max(0, tail));
}
