import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gumH3, norris } from '../testing/reference-data.ts';
import { propagate } from '../uncertainty/propagate.ts';
import { fitLine, type LineFit, type LinePoint } from './line.ts';

function fitOf(points: LinePoint[]): LineFit {
  const found = fitLine(points);
  if (!found.ok) throw new Error(found.problem.message);
  return found.value;
}

describe('fitLine', () => {
  // Certified values of NIST StRD Norris (seen).
  it('meets the certified values of NIST Norris', () => {
    const fit = fitOf(norris);
    expect(fit.points).toBe(36);
    expect(fit.intercept).toBeCloseTo(-0.262323073774029, 11);
    expect(fit.interceptError).toBeCloseTo(0.232818234301152, 12);
    expect(fit.slope).toBeCloseTo(1.00211681802045, 13);
    expect(fit.slopeError).toBeCloseTo(4.29796848199937e-4, 15);
    expect(fit.residualDeviation).toBeCloseTo(0.884796396144373, 12);
    expect(fit.rSquared).toBeCloseTo(0.999993745883712, 13);
  });

  // Published to few digits in GUM H.3 (seen): −0.1712 (0.0029), 0.00218 (0.00067), s 0.0035, r −0.930.
  // The long digits were computed independently.
  it('meets the thermometer of GUM H.3', () => {
    const fit = fitOf(gumH3);
    expect(fit.intercept).toBeCloseTo(-0.171203790131, 11);
    expect(fit.interceptError).toBeCloseTo(0.002877597835, 11);
    expect(fit.slope).toBeCloseTo(0.00218269774, 11);
    expect(fit.slopeError).toBeCloseTo(0.000667938773, 11);
    expect(fit.residualDeviation).toBeCloseTo(0.003497563964, 11);
    expect(fit.intercept + 10 * fit.slope).toBeCloseTo(-0.149376812732, 11);
  });

  // Published (seen): correlation −0.930, and −0.1494 with u 0.0041 at 30 °C. Long digits computed independently.
  it('tells how sure that thermometer is at 30 °C', () => {
    const { intercept, slope, interceptError, slopeError, covariance } = fitOf(gumH3);
    const r = covariance! / (interceptError! * slopeError!);
    expect(r).toBeCloseTo(-0.930429603, 9);
    const found = propagate(
      ([b = 0, m = 0]) => b + 10 * m,
      [
        { value: intercept, u: interceptError!, df: 9 },
        { value: slope, u: slopeError!, df: 9 },
      ],
      [
        [1, r],
        [r, 1],
      ],
    );
    expect(found).toMatchObject({
      value: {
        value: expect.closeTo(-0.149376812732, 11),
        standardUncertainty: expect.closeTo(0.004138595753, 9),
        degreesOfFreedom: 9,
      },
    });
  });

  it('does not depend on the order of the points', () => {
    fc.assert(
      fc.property(fc.shuffledSubarray(norris, { minLength: norris.length }), (shuffled) => {
        expect(fitOf(shuffled).slope).toBeCloseTo(fitOf(norris).slope, 12);
      }),
    );
  });

  it('is exact on a line and knows no error from two points', () => {
    expect(
      fitOf([
        { x: 1, y: 3 },
        { x: 2, y: 5 },
      ]),
    ).toEqual({
      slope: 2,
      intercept: 1,
      rSquared: 1,
      residualDeviation: null,
      slopeError: null,
      interceptError: null,
      covariance: null,
      points: 2,
    });
    expect(
      fitOf([
        { x: 0, y: 1 },
        { x: 1, y: 1 },
        { x: 2, y: 1 },
      ]),
    ).toMatchObject({ slope: 0, rSquared: 1, slopeError: 0 });
    expect(
      fitOf([
        { x: 0, y: 0 },
        { x: 1, y: 1 },
        { x: 2, y: 0 },
      ]),
    ).toMatchObject({ slope: 0, rSquared: 0 });
  });

  it('refuses what gives no line, in words', () => {
    expect(fitLine([{ x: 1, y: 1 }])).toMatchObject({
      problem: {
        path: 'rows',
        code: 'too-few-points',
        message: 'There are 1 points; a line needs at least 2.',
      },
    });
    expect(fitLine([])).toMatchObject({ problem: { code: 'too-few-points' } });
    for (const bad of [
      { x: NaN, y: 1 },
      { x: 1, y: Infinity },
    ]) {
      expect(fitLine([{ x: 2, y: 2 }, bad])).toMatchObject({
        problem: { path: 'rows', code: 'not-a-number', message: 'A point is not a number.' },
      });
    }
    expect(
      fitLine([
        { x: 1, y: 1 },
        { x: 1, y: 2 },
      ]),
    ).toMatchObject({
      problem: { path: 'rows', code: 'same-abscissa', message: expect.stringContaining('same pressure') },
    });
  });
});
