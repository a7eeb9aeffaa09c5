import { normalQuantile } from '@countercheck/distributions';

/** One sampled unit: what was found in it, and its chance to be in the sample. */
export interface SampledValue {
  value: number;
  /** inclusion probability, above 0 up to 1 */
  chance: number;
  /** for stratified samples: which stratum */
  stratum?: string;
}

/** How the sample was drawn: decides how the variance is estimated. */
export type EstimateDesign =
  | { design: 'simple'; population: number }
  | { design: 'systematic'; population: number }
  | { design: 'stratified'; strata: Readonly<Record<string, { population: number; sample: number }>> }
  /** sum over the whole population of the squared chances below 1, known from the frame */
  | { design: 'risk-weighted'; population: number; sumOfSquares: number };

/** An estimated total with its standard error, how that came about, and what is wrong with it if anything. */
export interface Estimate {
  total: number;
  /** null where it cannot be estimated, e.g. a stratum of which one unit is known */
  standardError: number | null;
  low: number | null;
  high: number | null;
  basis: string;
}

const sum = (values: readonly number[]) => values.reduce((all, each) => all + each, 0);

function check(sample: readonly SampledValue[]): void {
  if (sample.length === 0) throw new RangeError('Nothing was sampled.');
  for (const { value, chance } of sample)
    if (!Number.isFinite(value) || !(chance > 0 && chance <= 1))
      throw new RangeError('A value is finite and its chance lies above 0 and up to 1.');
}

/** Variance of a total under simple sampling: N² (1 − n/N) s² / n, which is Sen, Yates and Grundy's, exactly. */
function simpleVariance(values: readonly number[], population: number): number | null {
  const n = values.length;
  if (n === population) return 0;
  if (n < 2) return null;
  const mean = sum(values) / n;
  const variance = sum(values.map((each) => (each - mean) ** 2)) / (n - 1);
  return (population ** 2 * (1 - n / population) * variance) / n;
}

function stratifiedVariance(
  sample: readonly SampledValue[],
  strata: Readonly<Record<string, { population: number }>>,
): number | null {
  const groups = new Map<string, number[]>();
  for (const { value, stratum = '' } of sample) groups.set(stratum, [...(groups.get(stratum) ?? []), value]);
  let variance = 0;
  for (const [stratum, values] of groups) {
    const part = simpleVariance(values, strata[stratum]?.population ?? values.length);
    if (part === null) return null;
    variance += part;
  }
  return variance;
}

/** Hartley and Rao's approximation of Sen, Yates and Grundy's variance for randomised systematic sampling. */
function hartleyRao(sample: readonly SampledValue[], sumOfSquares: number): number | null {
  const random = sample.filter(({ chance }) => chance < 1);
  const n = random.length;
  if (n === 0) return 0;
  if (n < 2) return null;
  let variance = 0;
  for (let i = 1; i < n; i++)
    for (let j = 0; j < i; j++) {
      const [a, b] = [random[i]!, random[j]!];
      const factor = Math.max(0, 1 - a.chance - b.chance + sumOfSquares / n);
      variance += factor * (a.value / a.chance - b.value / b.chance) ** 2;
    }
  return variance / (n - 1);
}

const bases = {
  simple: 'Sen–Yates–Grundy, exact for simple sampling',
  stratified: 'Sen–Yates–Grundy in each stratum, exact',
  systematic:
    'as if the sample had been simple: one systematic sample tells nothing exact about its own variance; usually too wide',
  'risk-weighted':
    'Hartley and Rao’s approximation of Sen–Yates–Grundy: chances of pairs are not known exactly',
} as const;

/**
 * The total over the population, Σ value / chance (Horvitz and Thompson), in the unit of the values, with an interval
 * by the normal distribution. Unbiased for known chances; the basis of the variance is said. Few units or rare values
 * make the interval too narrow: for shares with none or few found use the exact bounds. Throws RangeError for an
 * empty sample and for chances outside 0 to 1. Source: Horvitz and Thompson 1952, Sen 1953, Yates and Grundy 1953,
 * Hartley and Rao 1962 (from memory); a textbook's exercise and every sample of small populations in the tests.
 */
export function horvitzThompson(
  sample: readonly SampledValue[],
  design: EstimateDesign,
  confidence = 0.95,
): Estimate {
  check(sample);
  const total = sum(sample.map(({ value, chance }) => value / chance));
  const values = sample.map(({ value }) => value);
  const variance =
    design.design === 'stratified'
      ? stratifiedVariance(sample, design.strata)
      : design.design === 'risk-weighted'
        ? hartleyRao(sample, design.sumOfSquares)
        : simpleVariance(values, design.population);
  const standardError = variance === null ? null : Math.sqrt(variance);
  const half = standardError === null ? null : normalQuantile((1 + confidence) / 2) * standardError;
  return {
    ...{ total, standardError, basis: bases[design.design] },
    low: half === null ? null : total - half,
    high: half === null ? null : total + half,
  };
}

/** Chances of pairs: `joint(i, j)` is the chance that both units of the sample are in it. */
export type JointChance = (i: number, j: number) => number;

/**
 * Variance of a Horvitz–Thompson total where the chances of pairs are known, in the two unbiased forms: Horvitz and
 * Thompson's own, for any design, and Sen, Yates and Grundy's, for a sample of fixed size. The square of the unit of
 * the values; may come out below zero. Throws RangeError as `horvitzThompson`. Source: as there.
 */
export function jointVariance(
  sample: readonly SampledValue[],
  joint: JointChance,
): { horvitzThompson: number; senYatesGrundy: number } {
  check(sample);
  let [own, paired] = [0, 0];
  sample.forEach((a, i) => {
    own += ((1 - a.chance) / a.chance ** 2) * a.value ** 2;
    for (let j = 0; j < i; j++) {
      const b = sample[j]!;
      const both = joint(i, j);
      const excess = (both - a.chance * b.chance) / both;
      const [x, y] = [a.value / a.chance, b.value / b.chance];
      own += 2 * excess * x * y;
      paired -= excess * (x - y) ** 2;
    }
  });
  return { horvitzThompson: own, senYatesGrundy: paired };
}

/**
 * The total from draws with replacement, the mean of value / p (Hansen and Hurwitz), with its unbiased variance.
 * @param draws value and chance of one draw, above 0 up to 1. Throws RangeError for fewer than two draws or such
 * chances. Source: Hansen and Hurwitz 1943 (from memory); a textbook's exercise in the tests.
 */
export function hansenHurwitz(draws: readonly { value: number; chance: number }[]): {
  total: number;
  variance: number;
} {
  check(draws);
  if (draws.length < 2) throw new RangeError('One draw tells nothing about its variance.');
  const expanded = draws.map(({ value, chance }) => value / chance);
  const total = sum(expanded) / draws.length;
  const squares = sum(expanded.map((each) => (each - total) ** 2));
  return { total, variance: squares / (draws.length * (draws.length - 1)) };
}
