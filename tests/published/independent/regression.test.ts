import { fitLine, fitPowerLaw, type FlowPoint, type LinePoint } from '@countercheck/measurement';
import fc from 'fast-check';
import { PowerRegression } from 'ml-regression-power';
import { SimpleLinearRegression } from 'ml-regression-simple-linear';
import { linearRegression, rSquared, sampleCorrelation } from 'simple-statistics';
import { describe, expect, it } from 'vitest';

const runs = { numRuns: 5000, seed: 26 };

// Pressures far enough apart that the slope is determined, flows with noise of up to 10 %.
const tests: fc.Arbitrary<FlowPoint[]> = fc
  .record({
    c: fc.double({ min: 5, max: 400, noNaN: true }),
    n: fc.double({ min: 0.45, max: 1.05, noNaN: true }),
    noise: fc.array(fc.double({ min: -0.1, max: 0.1, noNaN: true }), { minLength: 5, maxLength: 12 }),
  })
  .map(({ c, n, noise }) =>
    noise.map((part, i) => {
      const pressure = 10 + (50 * i) / (noise.length - 1);
      return { pressure, flow: c * pressure ** n * (1 + part) };
    }),
  );

function logs(points: FlowPoint[]): LinePoint[] {
  return points.map(({ pressure, flow }) => ({ x: Math.log(pressure), y: Math.log(flow) }));
}

function fitted<T>(found: { ok: true; value: T } | { ok: false }): T {
  if (!found.ok) throw new Error('no fit');
  return found.value;
}

function apart(ours: number, theirs: number): number {
  return Math.abs(ours - theirs) / Math.abs(theirs);
}

describe('fits beside independent libraries', () => {
  it('give the straight line of simple-statistics to eleven digits', () => {
    fc.assert(
      fc.property(tests, (points) => {
        const line = fitted(fitLine(logs(points)));
        const theirs = linearRegression(logs(points).map(({ x, y }) => [x, y]));
        expect(apart(line.slope, theirs.m)).toBeLessThan(5e-11);
        expect(Math.abs(line.intercept - theirs.b)).toBeLessThan(5e-11);
      }),
      runs,
    );
  });

  it('give its r² to nine digits, both as the share explained and as the squared correlation', () => {
    fc.assert(
      fc.property(tests, (points) => {
        const pairs = logs(points);
        const line = fitted(fitLine(pairs));
        const explained = rSquared(
          pairs.map(({ x, y }) => [x, y]),
          (x) => line.intercept + line.slope * x,
        );
        const correlation = sampleCorrelation(
          pairs.map(({ x }) => x),
          pairs.map(({ y }) => y),
        );
        expect(Math.abs(line.rSquared - explained)).toBeLessThan(5e-10);
        expect(Math.abs(line.rSquared - correlation ** 2)).toBeLessThan(5e-10);
      }),
      runs,
    );
  });

  it('give the straight line of ml-regression to ten digits', () => {
    fc.assert(
      fc.property(tests, (points) => {
        const pairs = logs(points);
        const line = fitted(fitLine(pairs));
        const theirs = new SimpleLinearRegression(
          pairs.map(({ x }) => x),
          pairs.map(({ y }) => y),
        );
        expect(apart(line.slope, theirs.slope)).toBeLessThan(5e-10);
        expect(Math.abs(line.intercept - theirs.intercept)).toBeLessThan(5e-10);
      }),
      runs,
    );
  });

  it('give the power law of ml-regression to ten digits', () => {
    fc.assert(
      fc.property(tests, (points) => {
        const fit = fitted(fitPowerLaw(points));
        const theirs = new PowerRegression(
          points.map(({ pressure }) => pressure),
          points.map(({ flow }) => flow),
        );
        expect(apart(fit.exponent, theirs.B)).toBeLessThan(5e-10);
        expect(apart(fit.coefficient, theirs.A)).toBeLessThan(5e-10);
      }),
      runs,
    );
  });
});
