import { fastFitAt, fastFitSize, fitPowerLawFast } from '@countercheck/measurement';
import { describe, expect, it } from 'vitest';
import { normalNoise } from './noise.ts';

const truth = { c: 120, n: 0.65 };
const pressures = [60, 52, 45, 38, 31, 24, 17, 12];
const tests = 10_000;

function flowAt(pressure: number): number {
  return truth.c * pressure ** truth.n;
}

/** Shares of simulated tests whose 95 % intervals hold the truth. */
function coverage(scatter: number, reference: number, seed: number): Record<string, number> {
  const noise = normalNoise(seed);
  const held = { exponent: 0, coefficient: 0, flow: 0 };
  const found = new Float64Array(fastFitSize);
  const within = (low: keyof typeof fastFitAt, high: keyof typeof fastFitAt, value: number) =>
    Number((found[fastFitAt[low]] ?? NaN) <= value && value <= (found[fastFitAt[high]] ?? NaN));
  for (let i = 0; i < tests; i++) {
    const flows = pressures.map((pressure) => flowAt(pressure) * Math.exp(scatter * noise()));
    if (!fitPowerLawFast(pressures, flows, pressures.length, found, reference)) throw new Error('no fit');
    held.exponent += within('exponentLow', 'exponentHigh', truth.n);
    held.coefficient += within('coefficientLow', 'coefficientHigh', truth.c);
    held.flow += within('flowLow', 'flowHigh', flowAt(reference));
  }
  return Object.fromEntries(Object.entries(held).map(([key, count]) => [key, count / tests]));
}

describe('95 % intervals over 10,000 simulated tests', () => {
  it.each([
    { scatter: 0.01, reference: 50, seed: 41 },
    { scatter: 0.03, reference: 50, seed: 42 },
    { scatter: 0.03, reference: 4, seed: 43 },
    { scatter: 0.08, reference: 10, seed: 44 },
  ])(
    'hold the truth in 94 to 96 %: scatter $scatter, flow at $reference Pa',
    ({ scatter, reference, seed }) => {
      const found = coverage(scatter, reference, seed);
      expect(found, JSON.stringify(found)).toSatisfy((shares: typeof found) =>
        Object.values(shares).every((share) => share > 0.94 && share < 0.96),
      );
    },
  );
});
