import { convert, fitPowerLaw, type FlowPoint, powerLawFlow } from '@countercheck/measurement';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

const runs = { numRuns: 2000, seed: 31 };

const laws = fc.record({
  c: fc.double({ min: 1, max: 500, noNaN: true }),
  n: fc.double({ min: 0.5, max: 1, noNaN: true }),
  pressures: fc.uniqueArray(fc.integer({ min: 10, max: 75 }), { minLength: 5, maxLength: 10 }),
});

function exact({ c, n, pressures }: { c: number; n: number; pressures: number[] }): FlowPoint[] {
  return pressures.map((pressure) => ({ pressure, flow: powerLawFlow(c, n, pressure) }));
}

const noisy = fc
  .tuple(laws, fc.array(fc.double({ min: 0.9, max: 1.1, noNaN: true }), { minLength: 10, maxLength: 10 }))
  .map(([law, noise]) => exact(law).map((point, i) => ({ ...point, flow: point.flow * (noise[i] ?? 1) })));

function fit(points: FlowPoint[]) {
  const found = fitPowerLaw(points);
  if (!found.ok) throw new Error(found.problem.message);
  return found.value;
}

describe('fits of a power law', () => {
  it('are exact for points without noise', () => {
    fc.assert(
      fc.property(laws, (law) => {
        const found = fit(exact(law));
        expect(found.exponent).toBeCloseTo(law.n, 10);
        expect(found.coefficient / law.c).toBeCloseTo(1, 9);
        expect(found.rSquared).toBeCloseTo(1, 10);
      }),
      runs,
    );
  });

  it('do not hang on the unit of the flow', () => {
    fc.assert(
      fc.property(noisy, (points) => {
        const metric = points.map(({ pressure, flow }) => ({ pressure, flow: convert(flow, 'cfm', 'm3/h') }));
        const [ours, theirs] = [fit(points), fit(metric)];
        expect(theirs.exponent).toBeCloseTo(ours.exponent, 11);
        expect(theirs.coefficient / convert(ours.coefficient, 'cfm', 'm3/h')).toBeCloseTo(1, 10);
        expect(theirs.line.slopeError).toBeCloseTo(ours.line.slopeError ?? NaN, 11);
      }),
      runs,
    );
  });

  it('do not hang on the order of the points or on which way the house was pushed', () => {
    fc.assert(
      fc.property(noisy, fc.integer({ min: 1, max: 9 }), (points, turn) => {
        const turned = [...points.slice(turn), ...points.slice(0, turn)].reverse();
        const pushed = turned.map(({ pressure, flow }) => ({ pressure: -pressure, flow }));
        const [ours, theirs] = [fit(points), fit(pushed)];
        expect(theirs.exponent).toBeCloseTo(ours.exponent, 11);
        expect(theirs.coefficient / ours.coefficient).toBeCloseTo(1, 10);
      }),
      runs,
    );
  });

  it('scale with the flow: twice the readings, twice the coefficient', () => {
    fc.assert(
      fc.property(noisy, fc.double({ min: 0.1, max: 10, noNaN: true }), (points, factor) => {
        const more = points.map(({ pressure, flow }) => ({ pressure, flow: factor * flow }));
        expect(fit(more).coefficient / fit(points).coefficient / factor).toBeCloseTo(1, 9);
        expect(fit(more).rSquared).toBeCloseTo(fit(points).rSquared, 9);
      }),
      runs,
    );
  });
});
