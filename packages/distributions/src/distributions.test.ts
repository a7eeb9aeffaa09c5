import betaQuantileThere from '@stdlib/stats-base-dists-beta-quantile';
import normalCdfThere from '@stdlib/stats-base-dists-normal-cdf';
import normalQuantileThere from '@stdlib/stats-base-dists-normal-quantile';
import tCdf from '@stdlib/stats-base-dists-t-cdf';
import tQuantileThere from '@stdlib/stats-base-dists-t-quantile';
import { describe, expect, it } from 'vitest';
import { betaQuantile, normalCdf, normalQuantile, studentQuantile } from './index.ts';

const chances = [1e-12, 1e-6, 0.001, 0.01, 0.025, 0.05, 0.1, 0.3, 0.45, 0.49, 0.55, 0.75, 0.95, 0.975, 0.999];

/** How far two figures lie apart, as a share of the second. */
const apart = (own: number, theirs: number) => (own === theirs ? 0 : Math.abs(own / theirs - 1));

describe('the normal distribution', () => {
  it('is that of an independent library, to 12 digits', () => {
    for (let z = -8; z < 8; z += 0.013)
      expect(apart(normalCdf(z), normalCdfThere(z, 0, 1))).toBeLessThan(1e-12);
    for (const p of chances) {
      expect(apart(normalCdf(normalQuantile(p)), p)).toBeLessThan(1e-12);
      // Further out the library's quantile is the less exact one.
      if (p >= 0.001) expect(apart(normalQuantile(p), normalQuantileThere(p, 0, 1))).toBeLessThan(1e-11);
    }
  });

  // Φ(−10) and Φ(−20): computed independently.
  it('keeps its digits far out', () => {
    expect(apart(normalCdf(-10), 7.619853024160527e-24)).toBeLessThan(1e-13);
    expect(apart(normalCdf(-20), 2.753624118606234e-89)).toBeLessThan(1e-13);
    expect(normalQuantile(normalCdf(-20))).toBeCloseTo(-20, 12);
    expect(normalQuantile(1e-300)).toBeCloseTo(-37.0471, 4);
  });

  it('has its ends, and nothing outside', () => {
    expect([normalCdf(-Infinity), normalCdf(0), normalCdf(Infinity)]).toEqual([0, 0.5, 1]);
    expect([normalQuantile(0), normalQuantile(0.5), normalQuantile(1)]).toEqual([-Infinity, 0, Infinity]);
    for (const none of [normalCdf(NaN), normalQuantile(NaN), normalQuantile(-0.1), normalQuantile(1.1)])
      expect(none).toBeNaN();
  });
});

describe('Student’s t', () => {
  const degrees = [0.1, 0.5, 1, 1.5, 2, 3, 4, 6, 9, 10, 16.7, 30, 100, 255.5, 1000, 9999, 10_001, 1e5, 1e6];

  it('is that of an independent library, to 12 digits', () => {
    for (const df of degrees)
      for (const p of chances) {
        const t = studentQuantile(p, df);
        expect(apart(t, tQuantileThere(p, df)), `${p}, ${df}`).toBeLessThan(1e-12);
        // Far out a chance magnifies what little t is off.
        expect(apart(tCdf(t, df), p), `${p}, ${df}`).toBeLessThan(1e-10);
      }
  });

  // The table of every textbook, one-sided (from memory).
  it.each([
    [0.9, 1, 3.078],
    [0.95, 2, 2.92],
    [0.975, 5, 2.571],
    [0.99, 10, 2.764],
    [0.995, 30, 2.75],
    [0.9995, 4, 8.61],
    [0.975, Infinity, 1.96],
  ])('at %s for %s degrees of freedom is %s', (p, df, t) => {
    expect(studentQuantile(p, df)).toBeCloseTo(t, 3);
    expect(studentQuantile(1 - p, df)).toBeCloseTo(-t, 3);
  });

  it('comes near the normal distribution without a leap', () => {
    for (const p of [0.6, 0.975, 0.999]) {
      let last = Infinity;
      for (const df of [9000, 9999, 10_000, 10_000.5, 1e5, 1e7, 1e9]) {
        expect(studentQuantile(p, df)).toBeLessThan(last);
        last = studentQuantile(p, df);
      }
      expect(last).toBeGreaterThan(normalQuantile(p));
      expect(studentQuantile(p, Infinity)).toBe(normalQuantile(p));
    }
  });

  it('has its ends, and nothing outside', () => {
    expect([0, 0.5, 1].map((p) => studentQuantile(p, 3))).toEqual([-Infinity, 0, Infinity]);
    for (const df of [0, -1, NaN]) expect(studentQuantile(0.9, df)).toBeNaN();
    for (const p of [-0.1, 1.1, NaN]) expect(studentQuantile(p, 3)).toBeNaN();
  });
});

describe('the beta distribution', () => {
  it('is that of an independent library, to 11 digits', () => {
    for (const a of [0.5, 1, 2, 5, 50, 1000, 20_000])
      for (const b of [0.5, 1, 2, 19, 60, 300, 20_000])
        for (const p of chances.slice(1))
          expect(apart(betaQuantile(p, a, b), betaQuantileThere(p, a, b)), `${p}, ${a}, ${b}`).toBeLessThan(
            1e-11,
          );
  });

  it('has its ends, and nothing outside', () => {
    expect([betaQuantile(0, 2, 3), betaQuantile(1, 2, 3)]).toEqual([0, 1]);
    for (const bad of [0, -1, NaN, Infinity])
      for (const none of [betaQuantile(0.5, bad, 1), betaQuantile(0.5, 1, bad)]) expect(none).toBeNaN();
    for (const p of [-0.1, 1.1, NaN]) expect(betaQuantile(p, 1, 1)).toBeNaN();
  });
});
