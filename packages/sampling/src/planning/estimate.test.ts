import { describe, expect, it } from 'vitest';
import { hansenHurwitz, horvitzThompson, jointVariance, type SampledValue } from '../index.ts';
import { marksHit } from '../draw/risk-weighted.ts';
import { places, shuffleFirst } from '../draw/select.ts';
import { wordStream } from '../draw/words.ts';

// A textbook's exercise (Thompson, Sampling, 6.1 and 6.2) with its answers, seen at
// https://www.transtutors.com/questions/1-an-unequal-probability-sample-of-size-3-is-selected-from-a-population-of-size-10-w-12529412.htm
// Three draws with replacement; the printed 56.57 for the first total is a slip: its own variance needs 56.67.
const draws = [
  { value: 3, chance: 0.06 },
  { value: 10, chance: 0.2 },
  { value: 7, chance: 0.1 },
];

describe('the textbook’s exercise', () => {
  it('by Hansen and Hurwitz: 56.67 with variance 44.44', () => {
    const { total, variance } = hansenHurwitz(draws);
    expect(total).toBeCloseTo(56.67, 2);
    expect(variance).toBeCloseTo(44.44, 2);
  });

  it('by Horvitz and Thompson: 64.03 with variance 62.46', () => {
    const once = (p: number) => 1 - (1 - p) ** 3;
    const sample = draws.map(({ value, chance }) => ({ value, chance: once(chance) }));
    const joint = (i: number, j: number) => {
      const [a, b] = [draws[i]!.chance, draws[j]!.chance];
      return once(a) + once(b) - once(a + b);
    };
    expect(sample.map(({ chance }) => chance.toFixed(4))).toEqual(['0.1694', '0.4880', '0.2710']);
    const { total } = horvitzThompson(sample, { design: 'simple', population: 10 });
    expect(total).toBeCloseTo(64.03, 1);
    expect(jointVariance(sample, joint).horvitzThompson).toBeCloseTo(62.46, 0);
  });
});

/** Every choice of `size` of the places 0 … population − 1. */
function* choices(population: number, size: number, from = 0): Generator<number[]> {
  if (size === 0) yield [];
  else
    for (let first = from; first <= population - size; first++)
      for (const rest of choices(population, size - 1, first + 1)) yield [first, ...rest];
}

describe('over every sample of a small population', () => {
  const values = [0, 3, 1, 8, 2, 5];
  const truth = values.reduce((sum, each) => sum + each);

  it('the estimate and its variance are right on average, simple and by pairs', () => {
    const samples = [...choices(6, 3)].map((places) =>
      places.map((at) => ({ value: values[at]!, chance: 0.5 })),
    );
    const estimates = samples.map((sample) => horvitzThompson(sample, { design: 'simple', population: 6 }));
    const mean = (list: number[]) => list.reduce((sum, each) => sum + each, 0) / list.length;
    expect(mean(estimates.map(({ total }) => total))).toBeCloseTo(truth, 10);
    const real = mean(estimates.map(({ total }) => (total - truth) ** 2));
    expect(mean(estimates.map(({ standardError }) => standardError! ** 2))).toBeCloseTo(real, 9);
    for (const sample of samples) {
      const pairs = jointVariance(sample, () => 0.2);
      const { standardError } = horvitzThompson(sample, { design: 'simple', population: 6 });
      expect(pairs.senYatesGrundy).toBeCloseTo(standardError! ** 2, 9);
    }
    expect(mean(samples.map((sample) => jointVariance(sample, () => 0.2).horvitzThompson))).toBeCloseTo(
      real,
      9,
    );
  });

  it('strata count by themselves', () => {
    const sample: SampledValue[] = [
      ...[1, 3].map((value) => ({ value, chance: 2 / 5, stratum: 'a' })),
      { value: 9, chance: 1, stratum: 'b' },
    ];
    const strata = { a: { population: 5, sample: 2 }, b: { population: 1, sample: 1 } };
    const estimate = horvitzThompson(sample, { design: 'stratified', strata });
    expect(estimate.total).toBeCloseTo(19, 12);
    // 5² (1 − 2/5) · 2 / 2 = 15, and nothing from the stratum that is known as a whole
    expect(estimate.standardError).toBeCloseTo(Math.sqrt(15), 12);
    expect(estimate.high! - estimate.total).toBeCloseTo(1.959964 * Math.sqrt(15), 4);
    const one = horvitzThompson(sample.slice(1), { design: 'stratified', strata });
    expect(one).toMatchObject({ standardError: null, low: null, high: null });
  });

  it(
    'risk-weighted: right on average over every start and many orders; the variance nearly so',
    { timeout: 60_000 },
    () => {
      const weights = Array.from({ length: 24 }, (_, at) => 1 + (at % 5));
      const found = weights.map((weight, at) => weight * 2 + ((at * 7) % 5));
      const size = 6;
      const total = weights.reduce((sum, each) => sum + each, 0);
      const truth = found.reduce((sum, each) => sum + each, 0);
      const chances = weights.map((weight) => (size * weight) / total);
      const sumOfSquares = chances.reduce((sum, chance) => sum + chance ** 2, 0);
      const words = wordStream(new Uint8Array(32));
      const order = places(weights.length);
      let [count, sumTotal, sumSquare, sumVariance] = [0, 0, 0, 0];
      for (let run = 0; run < 400; run++) {
        shuffleFirst(order, order.length - 1, words);
        for (let start = 0; start < total; start++) {
          const sample = marksHit(order, weights, size, total, start).map((at) => ({
            ...{ value: found[at]!, chance: chances[at]! },
          }));
          const estimate = horvitzThompson(sample, { design: 'risk-weighted', population: 24, sumOfSquares });
          count += 1;
          sumTotal += estimate.total;
          sumSquare += (estimate.total - truth) ** 2;
          sumVariance += estimate.standardError! ** 2;
        }
      }
      // Over all starts of one order the estimate is right exactly, whatever the order.
      expect(sumTotal / count).toBeCloseTo(truth, 8);
      const ratio = sumVariance / sumSquare;
      expect(ratio).toBeGreaterThan(0.85);
      expect(ratio).toBeLessThan(1.15);
    },
  );

  it('certain units add no doubt; what cannot be estimated is refused or left open', () => {
    const design = { design: 'risk-weighted', population: 2, sumOfSquares: 0 } as const;
    expect(horvitzThompson([{ value: 4, chance: 1 }], design)).toMatchObject({ total: 4, standardError: 0 });
    expect(horvitzThompson([{ value: 4, chance: 0.5 }], design).standardError).toBeNull();
    const all = { design: 'simple', population: 1 } as const;
    expect(horvitzThompson([{ value: 4, chance: 1 }], all).standardError).toBe(0);
    expect(
      horvitzThompson([{ value: 4, chance: 0.1 }], { design: 'systematic', population: 10 }).low,
    ).toBeNull();
    expect(() => horvitzThompson([], design)).toThrow(RangeError);
    expect(() => horvitzThompson([{ value: 1, chance: 0 }], design)).toThrow(RangeError);
    expect(() => hansenHurwitz([draws[0]!])).toThrow(RangeError);
  });
});
