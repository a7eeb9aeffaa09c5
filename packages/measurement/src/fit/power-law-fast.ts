import { studentFactor } from '../uncertainty/coverage.ts';

/** Where `fitPowerLawFast` puts what it finds. Logarithms are natural; factors and exponents dimensionless. */
export const fastFitAt = {
  /** C: flow at 1 Pa, in the unit of the flows */
  coefficient: 0,
  exponent: 1,
  /** of ln Q on ln P */
  rSquared: 2,
  /** standard deviation of the residuals of ln Q, N − 2 degrees of freedom */
  residualDeviation: 3,
  /** standard uncertainties, and the covariance of exponent and ln C */
  exponentError: 4,
  logCoefficientError: 5,
  covariance: 6,
  /** Student's t at 95 % for N − 2 */
  studentFactor: 7,
  /** 95 % interval of each */
  exponentLow: 8,
  exponentHigh: 9,
  coefficientLow: 10,
  coefficientHigh: 11,
  /** flow at the reference pressure, its standard uncertainty in ln Q, and its 95 % interval */
  flow: 12,
  logFlowError: 13,
  flowLow: 14,
  flowHigh: 15,
  /** weighted mean of ln P, sum of the weights, weighted sum of squares of ln P about its mean, ln C */
  meanLogPressure: 16,
  weight: 17,
  spread: 18,
  logCoefficient: 19,
} as const;

/** Numbers that `fitPowerLawFast` writes. */
export const fastFitSize = 20;

let logPressure = new Float64Array(64);
let logFlow = new Float64Array(64);

/**
 * Fits Q = C · P^n to `count` points by least squares of ln Q on ln P, with intervals by Student's t, and the
 * flow at a reference pressure with its interval: S(x)² = s² · (1/W + (x − x̄)² / Sxx). The same arithmetic as
 * `fitEnvelopeTest`, without objects or words: for simulations and many houses.
 * @param pressures Pa, above zero @param flows any unit, above zero
 * @param into at least `fastFitSize` numbers, filled as `fastFitAt` says
 * @param reference Pa, above zero
 * @param weights one for each point, above zero; only their ratios change the line, so let their mean be 1
 * @returns false, with `into` untouched, for fewer than 3 points, for one pressure only, and when a number is not
 * above zero or not finite. Never throws; not for two threads at once on one module.
 * Source: ASTM E779 annex A1 and ISO 9972 annex C (from memory), which is ordinary least squares; vectors
 * computed independently and one published house (docs/sources.md, Measurement 1).
 */
export function fitPowerLawFast(
  pressures: ArrayLike<number>,
  flows: ArrayLike<number>,
  count: number,
  into: Float64Array,
  reference = 50,
  weights: ArrayLike<number> | null = null,
): boolean {
  if (!(count >= 3) || !(reference > 0 && reference < Infinity)) return false;
  if (count > logPressure.length) {
    logPressure = new Float64Array(count * 2);
    logFlow = new Float64Array(count * 2);
  }
  let weight = 0;
  let sumX = 0;
  let sumY = 0;
  for (let i = 0; i < count; i++) {
    const x = Math.log(pressures[i]!);
    const y = Math.log(flows[i]!);
    const w = weights === null ? 1 : weights[i]!;
    if (!(w > 0)) return false;
    logPressure[i] = x;
    logFlow[i] = y;
    weight += w;
    sumX += w * x;
    sumY += w * y;
  }
  const meanX = sumX / weight;
  const meanY = sumY / weight;
  let sxx = 0;
  let sxy = 0;
  let syy = 0;
  for (let i = 0; i < count; i++) {
    const w = weights === null ? 1 : weights[i]!;
    const dx = logPressure[i]! - meanX;
    const dy = logFlow[i]! - meanY;
    sxx += w * dx * dx;
    sxy += w * dx * dy;
    syy += w * dy * dy;
  }
  // Pressures that differ by rounding alone would fit any exponent. A comparison with NaN refuses, too.
  if (!(sxx > 1e-12 * weight) || !Number.isFinite(sxy)) return false;
  const n = sxy / sxx;
  let ssr = 0;
  for (let i = 0; i < count; i++) {
    const r = logFlow[i]! - meanY - n * (logPressure[i]! - meanX);
    ssr += (weights === null ? 1 : weights[i]!) * r * r;
  }
  const variance = ssr / (count - 2);
  const t = studentFactor(count - 2);
  const logC = meanY - n * meanX;
  const nError = Math.sqrt(variance / sxx);
  const logCError = Math.sqrt(variance * (1 / weight + (meanX * meanX) / sxx));
  const distance = Math.log(reference) - meanX;
  const flowError = Math.sqrt(variance * (1 / weight + (distance * distance) / sxx));
  const coefficient = Math.exp(logC);
  const flow = Math.exp(meanY + n * distance);
  const coefficientFactor = Math.exp(t * logCError);
  const flowFactor = Math.exp(t * flowError);
  into[0] = coefficient;
  into[1] = n;
  into[2] = syy === 0 ? 1 : 1 - ssr / syy;
  into[3] = Math.sqrt(variance);
  into[4] = nError;
  into[5] = logCError;
  into[6] = (-meanX * variance) / sxx;
  into[7] = t;
  into[8] = n - t * nError;
  into[9] = n + t * nError;
  into[10] = coefficient / coefficientFactor;
  into[11] = coefficient * coefficientFactor;
  into[12] = flow;
  into[13] = flowError;
  into[14] = flow / flowFactor;
  into[15] = flow * flowFactor;
  into[16] = meanX;
  into[17] = weight;
  into[18] = sxx;
  into[19] = logC;
  return true;
}
