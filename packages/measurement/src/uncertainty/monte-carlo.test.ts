import { describe, expect, it } from 'vitest';
import { type Distribution, fromHalfWidth } from './distributions.ts';
import { type DrawnInput, monteCarlo, type Simulated } from './monte-carlo.ts';
import { propagate } from './propagate.ts';
import { randomStream } from './random.ts';

function of(...given: Parameters<typeof monteCarlo>): Simulated {
  const found = monteCarlo(...given);
  if (!found.ok) throw new Error(found.problem.message);
  return found.value;
}

const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
const four = (distribution: Distribution): DrawnInput[] =>
  Array.from({ length: 4 }, () => ({ value: 0, u: 1, distribution }));

describe('monteCarlo', () => {
  // JCGM 101 tables 2 and 3, seen in github:sandialabs/suncal, test_examples.py: u 2.0 and ±3.92, ±3.88.
  it.each<[Distribution, number]>([
    ['normal', 3.92],
    ['rectangular', 3.88],
  ])('adds four %s quantities as published', (distribution, half) => {
    const found = of(sum, four(distribution), 1, 400_000);
    expect(Math.abs(found.mean)).toBeLessThan(0.01);
    expect(Math.abs(found.standardUncertainty - 2)).toBeLessThan(0.01);
    expect(Math.abs(found.high - half)).toBeLessThan(0.02);
    expect(Math.abs(found.low + half)).toBeLessThan(0.02);
  });

  // A logarithm over a wide rectangle, after a national laboratory's report, seen in the same file: by
  // propagation −0.511 and 0.481, by simulation −0.665 and 0.606, shortest interval −1.895 to 0.095.
  it('shows where propagation fails', () => {
    const log = ([x = 0]: readonly number[]) => Math.log(x);
    const input = { value: 0.6, u: fromHalfWidth(0.5, 'rectangular') };
    const simulated = of(log, [{ ...input, distribution: 'rectangular' }], 2, 400_000);
    expect(Math.abs(simulated.mean + 0.665)).toBeLessThan(0.004);
    expect(Math.abs(simulated.standardUncertainty - 0.606)).toBeLessThan(0.004);
    expect(Math.abs(simulated.shortest.low + 1.895)).toBeLessThan(0.02);
    expect(Math.abs(simulated.shortest.high - 0.095)).toBeLessThan(0.005);
    const propagated = propagate(log, [input]);
    expect(propagated.ok && propagated.value.value).toBeCloseTo(-0.511, 3);
    expect(propagated.ok && propagated.value.standardUncertainty).toBeCloseTo(0.481, 3);
  });

  // Magnitude of a complex quantity, JCGM 102 table 6, seen in the same file: mean 0.013, u 0.007.
  it('meets the magnitude of a small complex quantity', () => {
    const parts = [
      { value: 0.001, u: 0.01 },
      { value: 0, u: 0.01 },
    ];
    const found = of(([re = 0, im = 0]) => Math.hypot(re, im), parts, 3, 200_000);
    expect(found.mean).toBeCloseTo(0.013, 3);
    expect(found.standardUncertainty).toBeCloseTo(0.007, 3);
  });

  it('agrees with propagation for a product of correlated quantities', () => {
    const two = [
      { value: 20, u: 0.4 },
      { value: 5, u: 0.05 },
    ];
    const r = [
      [1, -0.6],
      [-0.6, 1],
    ];
    const product = ([a = 0, b = 0]: readonly number[]) => a * b;
    const simulated = of(product, two, 4, 200_000, r);
    const propagated = propagate(product, two, r);
    const u = propagated.ok ? propagated.value.standardUncertainty : NaN;
    expect(Math.abs(simulated.standardUncertainty / u - 1)).toBeLessThan(0.01);
  });

  it.each<[Distribution, number, number]>([
    ['triangular', 1, 1.9018],
    ['arcsine', 1, 1.4098],
    ['student-t', Math.sqrt(9 / 7), 2.262157],
  ])('draws %s with its spread and its 97.5 % point', (distribution, spread, point) => {
    const found = of(sum, [{ value: 0, u: 1, df: 9, distribution }], 5, 400_000);
    expect(Math.abs(found.mean)).toBeLessThan(0.01);
    expect(Math.abs(found.standardUncertainty / spread - 1)).toBeLessThan(0.01);
    expect(Math.abs(found.high / point - 1)).toBeLessThan(0.01);
  });

  it('gives the same for the same seed and another for another', () => {
    const once = of(sum, four('student-t'), 7, 1000);
    expect(of(sum, four('student-t'), 7, 1000)).toEqual(once);
    expect(of(sum, four('normal'), 7, 1000)).toEqual(once);
    expect(of(sum, four('normal'), 8, 1000).mean).not.toBe(once.mean);
    expect(randomStream(1).uniform()).toBe(randomStream(1).uniform());
  });

  it.each([
    [four('normal'), 999, undefined, 'bad-draws'],
    [four('normal'), 1000.5, undefined, 'bad-draws'],
    [four('normal'), 5_000_001, undefined, 'bad-draws'],
    [[], 1000, undefined, 'no-inputs'],
    [four('normal'), 1000, [[1]], 'bad-correlation'],
    [four('arcsine').slice(3), 1000, [[1]], 'correlated-shape'],
  ])('refuses %o, %s draws, %o', (inputs, draws, correlation, code) => {
    expect(monteCarlo(sum, inputs, 1, draws, correlation)).toMatchObject({ problem: { code } });
  });

  it('refuses a function that gives no number', () => {
    expect(monteCarlo(([x = 0]) => Math.log(x), [{ value: 0, u: 1 }], 1, 1000)).toMatchObject({
      problem: { code: 'not-a-number' },
    });
  });
});
