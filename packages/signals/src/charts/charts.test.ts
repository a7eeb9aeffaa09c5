import { expect, test } from 'vitest';
import normalCdf from '@stdlib/stats-base-dists-normal-cdf';
import { Random } from '../statistics/random.ts';
import { d2, d3, d4 } from './constants.ts';
import { cusumChart } from './cusum.ts';
import { ewmaChart } from './ewma.ts';
import { individualsChart } from './individuals.ts';

/** Mean range of n values of a standard normal distribution: ∫ 1 − (1 − Φ)^n − Φ^n. */
function meanRange(n: number): number {
  let sum = 0;
  const step = 0.001;
  for (let x = -9; x < 9; x += step) {
    const below = normalCdf(x + step / 2, 0, 1);
    sum += (1 - (1 - below) ** n - below ** n) * step;
  }
  return sum;
}

test('the constants for ranges of two are those of the tables (d2 1.128, d3 0.853, D4 3.267; from memory)', () => {
  expect(d2).toBeCloseTo(1.128, 3);
  expect(d3).toBeCloseTo(0.853, 3);
  expect(d4).toBeCloseTo(3.267, 3);
});

test('they are what they stand for', () => {
  expect(d2).toBeCloseTo(2 / Math.sqrt(Math.PI), 8);
  expect(d3).toBeCloseTo(Math.sqrt(2 - 4 / Math.PI), 8);
  expect(d4).toBeCloseTo(1 + (3 * d3) / d2, 7);
  expect(meanRange(2)).toBeCloseTo(d2, 6);
});

// The tables' d2 for three to ten values (from memory), by the same integral.
test.each([
  [3, 1.693],
  [4, 2.059],
  [5, 2.326],
  [6, 2.534],
  [7, 2.704],
  [8, 2.847],
  [9, 2.97],
  [10, 3.078],
])('the integral gives the table for %i values', (n, table) => {
  expect(meanRange(n)).toBeCloseTo(table, 3);
});

// Concentrations of a chemical process, a textbook's table 16-7 (seen at issuhub.com, Applied Statistics and
// Probability for Engineers, page 634); its limits 105.99 and 92.21 from a mean of 99.1 are from memory.
const concentrations = [
  102, 94.8, 98.3, 98.4, 102, 98.5, 99, 97.7, 100, 98.1, 101.3, 98.7, 101.1, 98.4, 97, 96.7, 100.3, 101.4,
  97.2, 101,
];

test('a chart of single values has the limits of the worked example', () => {
  const chart = individualsChart(concentrations)!;
  expect(chart.mean).toBeCloseTo(99.1, 1);
  expect(chart.upper).toBeCloseTo(105.99, 1);
  expect(chart.lower).toBeCloseTo(92.21, 1);
  expect(chart.outside).toEqual([]);
});

test('the cumulative sum of the same table ends at 1.9 above 99', () => {
  const { high, low } = cusumChart(concentrations, { target: 99, sigma: 1, k: 0 });
  const sums = concentrations.map((_, i) =>
    concentrations.slice(0, i + 1).reduce((sum, x) => sum + x - 99, 0),
  );
  expect(sums.at(-1)).toBeCloseTo(1.9, 6);
  // Without an allowance the tabular sums are the distance from the lowest and highest plain sum so far.
  sums.forEach((sum, i) => {
    expect(high[i]).toBeCloseTo(sum - Math.min(0, ...sums.slice(0, i + 1)), 6);
    expect(low[i]).toBeCloseTo(Math.max(0, ...sums.slice(0, i + 1)) - sum, 6);
  });
});

test('weighted means are those of the e-Handbook 6.3.2.4 (from memory)', () => {
  const values = [
    52, 47, 53, 49.3, 50.1, 47, 51, 50.1, 51.2, 50.5, 49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6,
    52.1,
  ];
  const chart = ewmaChart(values, { target: 50, sigma: 2.0539, weight: 0.3 });
  expect(chart.means.map((mean) => Number(mean.toFixed(2)))).toEqual([
    50.6, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33, 50.11, 49.36, 49.52, 50.05, 49.38,
    49.92, 50.73, 51.23, 51.94, 51.99,
  ]);
  expect(chart.upper.at(-1)).toBeCloseTo(52.5884, 3);
  expect(chart.lower.at(-1)).toBeCloseTo(47.4115, 3);
});

test(
  'a cumulative sum with k ½ and h 5 calls out about every 465 values when nothing moves',
  { timeout: 60_000 },
  () => {
    const random = new Random(7);
    let [total, runs] = [0, 0];
    for (; runs < 400; runs += 1) {
      let [high, low, n] = [0, 0, 0];
      while (high <= 5 && low <= 5) {
        const x = random.normal();
        high = Math.max(0, high + x - 0.5);
        low = Math.max(0, low - x - 0.5);
        n += 1;
      }
      total += n;
    }
    // Run lengths are about exponential, so the mean of 400 has a standard error near 23.
    expect(Math.abs(total / runs - 465)).toBeLessThan(92);
  },
);

test('a shift shows in the cumulative sum, with the place since when', () => {
  const random = new Random(3);
  const values = Array.from({ length: 60 }, (_, i) => random.normal(i < 30 ? 0 : 1.5));
  const { outside, since } = cusumChart(values, { target: 0, sigma: 1 });
  expect(outside[0]).toBeGreaterThanOrEqual(30);
  expect(since).toBeGreaterThanOrEqual(25);
  expect(since).toBeLessThanOrEqual(34);
});

test('what cannot be charted is refused', () => {
  expect(individualsChart([1, 2])).toBeNull();
  expect(() => ewmaChart([1], { target: 0, sigma: 0 })).toThrow(RangeError);
  expect(() => ewmaChart([1], { target: 0, sigma: 1, weight: 0 })).toThrow(RangeError);
  expect(() => cusumChart([1], { target: 0, sigma: 0 })).toThrow(RangeError);
});
