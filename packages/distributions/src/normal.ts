import { whereLogIs } from './solve.ts';

const logRootTwoPi = 0.5 * Math.log(2 * Math.PI);
const logDensity = (z: number) => -0.5 * z * z - logRootTwoPi;

/** Beyond this the series would take a half from a half. */
const far = 2.5;

// Φ(z) = ½ + φ(z) · (z + z³/3 + z⁵/(3·5) + …): the terms have one sign, so that nothing cancels.
function middle(z: number): number {
  let term = z;
  let sum = z;
  for (let odd = 3; Math.abs(term) > 1e-17 * Math.abs(sum); odd += 2) {
    term *= (z * z) / odd;
    sum += term;
  }
  return 0.5 + Math.exp(logDensity(z)) * sum;
}

// ln of the tail below −x: φ(x) over the continued fraction x + 1/(x + 2/(x + 3/(x + …))), from its end.
function logTail(x: number): number {
  let fraction = x;
  for (let n = 12 + Math.ceil(460 / (x * x)); n > 0; n--) fraction = x + n / fraction;
  return logDensity(x) - Math.log(fraction);
}

/**
 * Φ(z), the standard normal distribution: chance of a value at or below z, 0 to 1; NaN for NaN. Good to 13 digits, in
 * the lower tail too. Never throws. Source: series and continued fraction of Abramowitz and Stegun, 26.2.11 and
 * 26.2.14 (from memory); checked with an independent library (@stdlib).
 */
export function normalCdf(z: number): number {
  if (z < -far) return Math.exp(logTail(-z));
  if (z > far) return 1 - Math.exp(logTail(z));
  return Number.isNaN(z) ? NaN : middle(z);
}

/**
 * The standard normal quantile: the z with Φ(z) = p; −∞ and ∞ for 0 and 1, NaN outside. Good to 13 digits. Never
 * throws. Source: Newton's method on ln Φ; checked with an independent library (@stdlib).
 */
export function normalQuantile(p: number): number {
  if (!(p >= 0 && p <= 1)) return NaN;
  if (p > 0.5) return -normalQuantile(1 - p);
  if (p === 0) return -Infinity;
  if (p === 0.5) return 0;
  return whereLogIs(Math.log(p), 0, (z) => {
    const log = z < -far ? logTail(-z) : Math.log(normalCdf(z));
    return { log, slope: Math.exp(logDensity(z) - log) };
  });
}
