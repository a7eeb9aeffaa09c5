import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { powerLawFlow } from '../flow/power-law.ts';
import { noisyHouse, textbookHouse } from '../testing/reference-data.ts';
import { fitPowerLaw, type FlowPoint, type PowerLawFit } from './power-law-fit.ts';

function fitOf(points: FlowPoint[]): PowerLawFit {
  const found = fitPowerLaw(points);
  if (!found.ok) throw new Error(found.problem.message);
  return found.value;
}

describe('fitPowerLaw', () => {
  // Published (seen): n 0.6434 ± 0.0442, K 53.3956, R² 0.9815, 234.9 m³/h at 10 Pa. Long digits and 50 Pa: computed independently.
  it('meets the textbook’s house', () => {
    const { coefficient, exponent, rSquared, line } = fitOf(textbookHouse);
    expect(exponent).toBeCloseTo(0.643448788947, 11);
    expect(line.slopeError).toBeCloseTo(0.044195784272, 11);
    expect(coefficient).toBeCloseTo(53.395622959, 8);
    expect(line.interceptError).toBeCloseTo(0.15258736303, 10);
    expect(rSquared).toBeCloseTo(0.981478569471, 11);
    expect(powerLawFlow(coefficient, exponent, 10)).toBeCloseTo(234.938637983, 7);
    expect(powerLawFlow(coefficient, exponent, 50)).toBeCloseTo(661.768132, 5);
  });

  // Computed independently.
  it('meets the invented noisy house', () => {
    const { coefficient, exponent, rSquared, line } = fitOf(noisyHouse);
    expect(exponent).toBeCloseTo(0.644539441, 8);
    expect(coefficient).toBeCloseTo(122.111266641, 7);
    expect(line.slopeError).toBeCloseTo(0.006399829, 8);
    expect(line.interceptError).toBeCloseTo(0.022280687, 8);
    expect(rSquared).toBeCloseTo(0.999408803, 8);
    expect(powerLawFlow(coefficient, exponent, 50)).toBeCloseTo(1519.878647, 5);
  });

  const law = fc.record({
    c: fc.double({ min: 1, max: 500, noNaN: true }),
    n: fc.double({ min: 0.5, max: 1, noNaN: true }),
    sign: fc.constantFrom(1, -1),
  });

  it('finds a noise-free power law again, pressurised or depressurised', () => {
    fc.assert(
      fc.property(law, ({ c, n, sign }) => {
        const points = [10, 20, 30, 40, 50].map((p) => ({ pressure: sign * p, flow: c * p ** n }));
        const fit = fitOf(points);
        expect(fit.exponent).toBeCloseTo(n, 10);
        expect(fit.coefficient / c).toBeCloseTo(1, 9);
        expect(fit.rSquared).toBeCloseTo(1, 12);
      }),
    );
  });

  it('keeps its exponent and fit in another unit of flow', () => {
    const inLitres = noisyHouse.map(({ pressure, flow }) => ({ pressure, flow: flow * 0.4719474432 }));
    const [cfm, litres] = [fitOf(noisyHouse), fitOf(inLitres)];
    expect(litres.exponent).toBeCloseTo(cfm.exponent, 11);
    expect(litres.rSquared).toBeCloseTo(cfm.rSquared, 11);
    expect(litres.coefficient).toBeCloseTo(cfm.coefficient * 0.4719474432, 8);
  });

  it('refuses points without a logarithm and points at one pressure', () => {
    const good = { pressure: 50, flow: 1000 };
    for (const bad of [
      { pressure: 0, flow: 10 },
      { pressure: 20, flow: 0 },
      { pressure: 20, flow: -1 },
      { pressure: NaN, flow: 1 },
    ]) {
      expect(fitPowerLaw([good, bad])).toMatchObject({
        problem: {
          path: 'rows.1',
          code: 'not-positive',
          message: expect.stringContaining('Point 2 has no pressure or no flow'),
        },
      });
    }
    expect(fitPowerLaw([good, { pressure: -50, flow: 900 }])).toMatchObject({
      problem: { code: 'same-abscissa' },
    });
  });
});
