import { expect, test } from 'vitest';
import { betaBinomial } from './beta-binomial.ts';
import { atLeast } from './counts.ts';
import { hochberg, overFamilies } from './discoveries.ts';
import { nodes } from '../signals/narrow-failures.ts';
import { median, robustSpread } from './robust.ts';
import { Random } from './random.ts';
import { sumAtLeast, type ThreeWay } from './three-way.ts';
import { binomialAtLeast, chisquareAbove, chisquareBelow, studentBeyond } from './tails.ts';

test('tails are those of the tables (from memory): chi-square 16.92 at 5 % and 9 degrees, t 2.086 at 20', () => {
  expect(chisquareAbove(16.919, 9)).toBeCloseTo(0.05, 4);
  expect(chisquareBelow(3.3251, 9)).toBeCloseTo(0.05, 4);
  expect(studentBeyond(2.086, 20)).toBeCloseTo(0.05, 4);
  expect(binomialAtLeast(8, 10, 0.5)).toBeCloseTo(56 / 1024, 10);
});

test('the tail of events with chances of their own is that of the binomial distribution when they are the same', () => {
  const event = (chance: number) => [1 - chance, chance];
  expect(atLeast(2, [0.5, 0.5, 0.5].map(event))).toBeCloseTo(0.5, 12);
  expect(atLeast(0, [event(0.2)])).toBeCloseTo(1, 12);
  expect(atLeast(2, [0.1, 0.2].map(event))).toBeCloseTo(0.02, 12);
  // A die with faces 0 to 5 beside one of two faces: eleven of the twelve sums of at least one.
  expect(atLeast(1, [new Array<number>(6).fill(1 / 6), event(0.5)])).toBeCloseTo(11 / 12, 12);
});

test('trials with a chance that is not known are uniform when anything was possible, and binomial when it is known', () => {
  betaBinomial(4, 1, 1).forEach((chance) => expect(chance).toBeCloseTo(1 / 5, 12));
  // 3 of 3 with a chance of Beta(2, 3): 2·3·4 ÷ (5·6·7).
  expect(betaBinomial(3, 2, 3)[3]).toBeCloseTo(24 / 210, 12);
  const sure = betaBinomial(10, 0.02 * 1e7, 0.98 * 1e7);
  expect(atLeast(3, [sure])).toBeCloseTo(binomialAtLeast(3, 10, 0.02), 6);
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

test('families of one test are the plain procedure; more tests in a family count by Bonferroni', () => {
  const plain = hochberg(published);
  overFamilies(published.map((p) => [p])).forEach(([q], i) => expect(q).toBeCloseTo(plain[i]!, 12));
  // Two families chosen at 0.02: the second test of the first stands where 0.015 · 2 tests · 2 families ÷ 2 chosen.
  expect(overFamilies([[0.001, 0.015], [0.01]])).toEqual([[0.004, 0.03], [0.01]]);
  expect(overFamilies([])).toEqual([]);
});

test('when nothing is there, a look finds something at most as often as its level, whatever goes together', () => {
  const random = new Random(11);
  let looks = 0;
  for (let i = 0; i < 2000; i += 1) {
    const families = Array.from({ length: 10 }, () => {
      const same = random.next();
      return [same, same, random.next(), 1 - same];
    });
    if (
      overFamilies(families)
        .flat()
        .some((q) => q <= 0.05)
    )
      looks += 1;
  }
  // One in twenty, and three standard errors.
  expect(looks / 2000).toBeLessThan(0.05 + 3 * Math.sqrt((0.05 * 0.95) / 2000));
});

/** Every outcome of a few three-way trials, to hold the approximation against. */
function exactly(trials: readonly ThreeWay[], t: number): number {
  const [first, ...rest] = trials;
  if (!first) return t <= 1e-9 ? 1 : 0;
  const { low, high, chanceOfLow, chanceOfHigh } = first;
  return (
    chanceOfLow * exactly(rest, t - low) +
    chanceOfHigh * exactly(rest, t - high) +
    (1 - chanceOfLow - chanceOfHigh) * exactly(rest, t)
  );
}

test('the tail of a sum of scores is that of all its outcomes, within a quarter, as far as one in ten thousand', () => {
  const random = new Random(3);
  const trials = Array.from({ length: 11 }, () => {
    const chanceOfLow = random.between(0.1, 0.6);
    return { low: -2.3, high: random.between(0.5, 3), chanceOfLow, chanceOfHigh: random.between(0.02, 0.3) };
  });
  const seen: number[] = [];
  for (let t = -14.05; t < 14; t += 1.37) {
    const truth = exactly(trials, t);
    if (truth < 1e-6) continue;
    seen.push(truth);
    expect(Math.abs(Math.log(sumAtLeast(trials, t) / truth))).toBeLessThan(Math.log(1.25));
  }
  expect(Math.min(...seen)).toBeLessThan(1e-4);
});

test('at the largest sum there is the tail is that of every trial at its highest', () => {
  const trials = [0.2, 0.3].map((chanceOfHigh) => ({ low: -1, high: 2, chanceOfLow: 0.1, chanceOfHigh }));
  expect(sumAtLeast(trials, 4)).toBeCloseTo(0.06, 6);
  expect(sumAtLeast([{ low: -2.3, high: 1, chanceOfLow: 1, chanceOfHigh: 0 }], -2.3)).toBe(1);
});

test('seven nodes integrate a normal variable as far as its thirteenth power', () => {
  const moment = (power: number) => nodes.reduce((sum, [z, weight]) => sum + weight * z ** power, 0);
  expect([0, 2, 4, 6, 8, 10, 12].map((power) => Number(moment(power).toFixed(6)))).toEqual([
    1, 1, 3, 15, 105, 945, 10395,
  ]);
});

test('the robust spread is a standard deviation and lets wild values be', () => {
  const random = new Random(5);
  const values = Array.from({ length: 4000 }, () => random.normal(10, 2));
  expect(robustSpread(values)).toBeCloseTo(2, 0);
  expect(robustSpread([...values, 1e9, -1e9])).toBeCloseTo(robustSpread(values), 2);
  expect(median([3, 1, 2, 4])).toBe(2.5);
});
