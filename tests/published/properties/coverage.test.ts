import { fitPowerLaw, studentFactor } from '@countercheck/measurement';
import { describe, expect, it } from 'vitest';
import { normalNoise } from './noise.ts';

const truth = { c: 120, n: 0.65 };
const pressures = [60, 52, 45, 38, 31, 24, 17, 12];
const tests = 10_000;

/** Share of simulated tests whose 95 % interval holds the truth: of the exponent and of ln C. */
function coverage(scatter: number, seed: number): { exponent: number; logCoefficient: number } {
  const noise = normalNoise(seed);
  const held = { exponent: 0, logCoefficient: 0 };
  for (let i = 0; i < tests; i++) {
    const points = pressures.map((pressure) => ({
      pressure,
      flow: truth.c * pressure ** truth.n * Math.exp(scatter * noise()),
    }));
    const fit = fitPowerLaw(points);
    if (!fit.ok) throw new Error(fit.problem.message);
    const { slope, intercept, slopeError, interceptError } = fit.value.line;
    const t = studentFactor(pressures.length - 2);
    if (Math.abs(slope - truth.n) <= t * (slopeError ?? NaN)) held.exponent++;
    if (Math.abs(intercept - Math.log(truth.c)) <= t * (interceptError ?? NaN)) held.logCoefficient++;
  }
  return { exponent: held.exponent / tests, logCoefficient: held.logCoefficient / tests };
}

describe('95 % intervals over 10,000 simulated tests', () => {
  it.each([
    { scatter: 0.01, seed: 41 },
    { scatter: 0.03, seed: 42 },
    { scatter: 0.08, seed: 43 },
  ])('hold the truth in 94 to 96 % with a scatter of $scatter', ({ scatter, seed }) => {
    const found = coverage(scatter, seed);
    for (const share of Object.values(found)) {
      expect(share).toBeGreaterThan(0.94);
      expect(share).toBeLessThan(0.96);
    }
  });
});
