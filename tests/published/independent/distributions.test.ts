import { chanceBeyond, studentFactor } from '@countercheck/measurement';
import chisquareCdf from '@stdlib/stats-base-dists-chisquare-cdf';
import fQuantile from '@stdlib/stats-base-dists-f-quantile';
import tCdf from '@stdlib/stats-base-dists-t-cdf';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { figures } from '../run/figures.ts';

const level = fc.double({ min: 0.5, max: 0.999, noNaN: true });
const freedom = fc.integer({ min: 1, max: 300 });

// The distributions are related to each other, so that each is a check of another’s code.
describe('distributions beside independent ones', () => {
  it('give a factor of Student’s t whose probability is the level, to ten digits', () => {
    fc.assert(
      fc.property(level, freedom, (p, df) => {
        const t = studentFactor(df, p);
        expect(tCdf(t, df) - tCdf(-t, df)).toBeCloseTo(p, 10);
      }),
      { numRuns: 3000, seed: 27 },
    );
  });

  it('give the root of the F distribution with one degree of freedom, to eight digits', () => {
    fc.assert(
      fc.property(level, freedom, (p, df) => {
        const root = Math.sqrt(fQuantile(p, 1, df));
        expect(Math.abs(studentFactor(df, p) / root - 1)).toBeLessThan(5e-9);
      }),
      { numRuns: 500, seed: 28 },
    );
  });

  it('give the chance between symmetric limits as chi-squared with one degree of freedom, to twelve digits', () => {
    const positive = fc.double({ min: 0.01, max: 10, noNaN: true });
    fc.assert(
      fc.property(positive, positive, (half, u) => {
        const held = { value: 0, standardUncertainty: u, low: -half, high: half };
        const { within } = figures(chanceBeyond(held));
        expect(within).toBeCloseTo(chisquareCdf((half / u) ** 2, 1), 12);
      }),
      { numRuns: 3000, seed: 29 },
    );
  });
});
