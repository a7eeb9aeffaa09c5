import { betaLogOdds } from './beta.ts';
import { normalQuantile } from './normal.ts';

/**
 * The quantile of Student's t: the t below which a value lies with chance p, for degrees of freedom above 0, whole or
 * not, and the normal distribution's for infinitely many. −∞ and ∞ for 0 and 1; NaN for a p outside or degrees that
 * are not above zero. Good to 11 digits. Never throws. Source: t² / df are the odds of a beta distribution with ½ and
 * df / 2 (textbooks), and above ten thousand degrees the expansion of Abramowitz and Stegun, 26.7.5 (from memory);
 * checked with an independent library (@stdlib).
 */
export function studentQuantile(p: number, degreesOfFreedom: number): number {
  if (!(p >= 0 && p <= 1) || !(degreesOfFreedom > 0)) return NaN;
  if (p > 0.5) return -studentQuantile(1 - p, degreesOfFreedom);
  if (p === 0) return -Infinity;
  if (p === 0.5) return 0;
  if (degreesOfFreedom > nearlyNormal) return expanded(normalQuantile(p), degreesOfFreedom);
  const [half, rest] = [0.5, degreesOfFreedom / 2];
  const both = 2 * p;
  const odds =
    both <= 0.5 ? -betaLogOdds(both, { a: rest, b: half }) : betaLogOdds(1 - both, { a: half, b: rest });
  return -Math.sqrt(degreesOfFreedom) * Math.exp(odds / 2);
}

/** From here on the expansion has more digits than the continued fraction. */
const nearlyNormal = 1e4;

function expanded(z: number, df: number): number {
  const s = z * z;
  const third = (((3 * s + 19) * s + 17) * s - 15) / 384;
  const second = ((5 * s + 16) * s + 3) / 96;
  return z * (1 + ((s + 1) / 4 + (second + third / df) / df) / df);
}
