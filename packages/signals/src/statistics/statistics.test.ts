import { expect, test } from 'vitest';
import { hochberg, yekutieli } from './discoveries.ts';
import { median, robustSpread } from './robust.ts';
import { Random } from './random.ts';
import { binomialAtLeast, chisquareAbove, chisquareBelow, studentBeyond } from './tails.ts';

test('tails are those of the tables (from memory): chi-square 16.92 at 5 % and 9 degrees, t 2.086 at 20', () => {
  expect(chisquareAbove(16.919, 9)).toBeCloseTo(0.05, 4);
  expect(chisquareBelow(3.3251, 9)).toBeCloseTo(0.05, 4);
  expect(studentBeyond(2.086, 20)).toBeCloseTo(0.05, 4);
  expect(binomialAtLeast(8, 10, 0.5)).toBeCloseTo(56 / 1024, 10);
});

test('far out a tail is small and never zero', () => {
  expect(binomialAtLeast(30, 30, 0.02)).toBeCloseTo(0.02 ** 30, 60);
  expect(binomialAtLeast(30, 30, 0.02)).toBeGreaterThan(0);
  expect(chisquareAbove(400, 9)).toBeGreaterThan(0);
  expect(chisquareAbove(400, 9)).toBeLessThan(1e-50);
});

// Fifteen p-values of the paper of 1995 (from memory): at 5 % its procedure rejects the first four.
const published = [
  0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459, 0.324, 0.4262, 0.5719, 0.6528,
  0.759, 1,
];
test('the procedure of 1995 rejects four of its fifteen', () => {
  expect(hochberg(published).filter((q) => q <= 0.05)).toHaveLength(4);
});

test('the general one is that with every value times 1 + 1/2 + … + 1/m', () => {
  const harmonic = published.reduce((sum, _, i) => sum + 1 / (i + 1), 0);
  const [plain, general] = [hochberg(published), yekutieli(published)];
  plain.forEach((q, i) => expect(general[i]).toBeCloseTo(Math.min(1, q * harmonic), 12));
  expect(yekutieli([])).toEqual([]);
});

test('when nothing is there, a look of the general procedure finds something at most as often as its level', () => {
  const random = new Random(11);
  let looks = 0;
  for (let i = 0; i < 2000; i += 1)
    if (yekutieli(Array.from({ length: 40 }, () => random.next())).some((q) => q <= 0.05)) looks += 1;
  expect(looks / 2000).toBeLessThan(0.05);
});

test('the robust spread is a standard deviation and lets wild values be', () => {
  const random = new Random(5);
  const values = Array.from({ length: 4000 }, () => random.normal(10, 2));
  expect(robustSpread(values)).toBeCloseTo(2, 0);
  expect(robustSpread([...values, 1e9, -1e9])).toBeCloseTo(robustSpread(values), 2);
  expect(median([3, 1, 2, 4])).toBe(2.5);
});
