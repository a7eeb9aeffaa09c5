import { describe, expect, it } from 'vitest';
import { monteCarlo } from '../uncertainty/monte-carlo.ts';
import { propagate } from '../uncertainty/propagate.ts';
import { onePointEnvelope, type OnePointResult, type OnePointTest } from './one-point.ts';

const given: OnePointTest = { pressure: 38, flow: 1100, baselineBefore: 0 };

function of(part: Partial<OnePointTest>): OnePointResult {
  const found = onePointEnvelope({ ...given, ...part });
  if (!found.ok) throw new Error(found.problem.message);
  return found.value;
}

describe('onePointEnvelope', () => {
  // Computed independently.
  it.each([
    [38, 0, 1100, 1314.8126],
    [-38, -2, 1100, 1361.8415],
    [22, 0, 2400, 4092.2957],
    [50, 0, 1300, 1300],
  ])('%s Pa with a baseline of %s and %s cfm gives %s', (pressure, baselineBefore, flow, at50) => {
    expect(of({ pressure, baselineBefore, flow }).flow).toBeCloseTo(at50, 3);
  });

  // (50 / P)^0.65 and the error when the house has another exponent: computed independently.
  it.each([
    [15, 2.1871, -16.52, 6.2],
    [25, 1.5692, -9.87, 3.53],
    [40, 1.1561, -3.29, 1.12],
    [45, 1.0709, -1.57, 0.53],
  ])(
    'from %s Pa multiplies by %s; a true exponent of 0.5 or 0.7 is off by %s and %s %%',
    (pressure, factor, low, high) => {
      const found = of({ pressure, flow: 1000 });
      expect(found.flow / 1000).toBeCloseTo(factor, 4);
      const off = (exponent: number) => (of({ pressure, flow: 1000, exponent }).flow / found.flow - 1) * 100;
      expect(off(0.5)).toBeCloseTo(low, 2);
      expect(off(0.7)).toBeCloseTo(high, 2);
    },
  );

  it('carries flow, pressure and assumed exponent as propagation and simulation do', () => {
    const doubt = { pressure: 25, flowUncertainty: 20, pressureUncertainty: 0.3 };
    const found = of(doubt);
    const inputs = [
      { value: 1100, u: 20 },
      { value: 25, u: 0.3 },
      { value: 0.65, u: 0.05 },
    ];
    const fn = ([q = 0, p = 0, n = 0]: readonly number[]) => q * (50 / p) ** n;
    const propagated = propagate(fn, inputs);
    if (!propagated.ok) throw new Error();
    expect(found.standardUncertainty).toBeCloseTo(propagated.value.standardUncertainty, 7);
    const budget = propagated.value.budget.map(({ contribution }) => contribution);
    [found.parts.flow, found.parts.pressure, found.parts.exponent].forEach((part, i) =>
      expect(part).toBeCloseTo(budget[i]!, 7),
    );
    const simulated = monteCarlo(fn, inputs, 11, 100_000);
    const u = simulated.ok ? simulated.value.standardUncertainty : NaN;
    expect(Math.abs(u / found.standardUncertainty - 1)).toBeLessThan(0.02);
    expect(found).toMatchObject({ coverageFactor: 2, expandedUncertainty: 2 * found.standardUncertainty });
  });

  it('knows no doubt of the exponent at the reference', () => {
    expect(of({ pressure: 50 })).toMatchObject({
      standardUncertainty: 0,
      remarks: ['exponent 0.65 assumed'],
    });
    expect(of({ exponent: 0.6, exponentUncertainty: 0 })).toMatchObject({
      standardUncertainty: 0,
      remarks: ['taken from 38 Pa'],
    });
  });

  it('shows its working', () => {
    expect(of({ reference: 25, baselineAfter: [1, 3] })).toMatchObject({
      pressure: 37,
      steps: [{ label: 'Leakage at 25 Pa', working: '1100 × (25 / 37)^0.65' }],
    });
  });

  it.each<[Partial<OnePointTest>, string]>([
    [{ pressure: NaN }, 'pressure not-a-number'],
    [{ pressure: 0 }, 'pressure zero-pressure'],
    [{ pressure: 14.9 }, 'pressure below-lowest-pressure'],
    [{ flow: 0 }, 'flow bad-flow'],
    [{ flow: Infinity }, 'flow bad-flow'],
    [{ baselineBefore: [] }, 'baselineBefore no-baseline'],
    [{ reference: 0 }, 'reference bad-reference'],
    [{ exponent: 0.39 }, 'exponent bad-exponent'],
    [{ exponent: 1.11 }, 'exponent bad-exponent'],
    [{ exponentUncertainty: -1 }, 'flowUncertainty bad-uncertainty'],
    [{ pressureUncertainty: NaN }, 'flowUncertainty bad-uncertainty'],
  ])('refuses %o', (part, words) => {
    const found = onePointEnvelope({ ...given, ...part });
    expect(found.ok ? 'accepted' : `${found.problem.path} ${found.problem.code}`).toBe(words);
  });
});
