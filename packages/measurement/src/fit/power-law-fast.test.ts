import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { noisyHouse, textbookHouse } from '../testing/reference-data.ts';
import { fastFitAt, fastFitSize, fitPowerLawFast } from './power-law-fast.ts';
import { fitPowerLaw, type FlowPoint } from './power-law-fit.ts';

function fast(points: FlowPoint[], reference?: number, weights?: number[]) {
  const into = new Float64Array(fastFitSize);
  const pressures = points.map(({ pressure }) => pressure);
  const flows = points.map(({ flow }) => flow);
  const ok = fitPowerLawFast(pressures, flows, points.length, into, reference, weights ?? null);
  const found = Object.fromEntries(Object.entries(fastFitAt).map(([key, at]) => [key, into[at]!]));
  return { ok, ...(found as Record<keyof typeof fastFitAt, number>) };
}

describe('fitPowerLawFast', () => {
  // Published to four digits (seen), long digits computed independently.
  it('meets the textbook’s house', () => {
    const at50 = fast(textbookHouse);
    expect(at50.exponent).toBeCloseTo(0.643448788947, 11);
    expect(at50.exponentError).toBeCloseTo(0.044195784272, 11);
    expect(at50.coefficient).toBeCloseTo(53.395622959, 8);
    expect(at50.coefficient * at50.logCoefficientError).toBeCloseTo(8.147497305, 8);
    expect(at50.rSquared).toBeCloseTo(0.981478569471, 11);
    expect(at50.logCoefficientError).toBeCloseTo(0.15258736303, 10);
    expect(at50.exponentLow).toBeCloseTo(0.520742, 6);
    expect(at50.exponentHigh).toBeCloseTo(0.766156, 6);
    expect(at50.flow).toBeCloseTo(661.768132, 6);
    expect(at50.flowLow).toBeCloseTo(600.401519, 6);
    expect(at50.flowHigh).toBeCloseTo(729.406983, 6);
    const at4 = fast(textbookHouse, 4);
    expect(at4.flow).toBeCloseTo(130.286804, 6);
    expect(at4.flowLow).toBeCloseTo(100.668887, 6);
    expect(at4.flowHigh).toBeCloseTo(168.618644, 6);
    expect(fast(textbookHouse, 10).flow).toBeCloseTo(234.938637983, 8);
  });

  // Computed independently.
  it('meets the invented noisy house', () => {
    const at50 = fast(noisyHouse);
    expect(at50.exponent).toBeCloseTo(0.644539441, 9);
    expect(at50.coefficient).toBeCloseTo(122.111266641, 8);
    expect(at50.logCoefficient).toBeCloseTo(4.804932651, 9);
    expect(at50.exponentError).toBeCloseTo(0.006399829, 9);
    expect(at50.logCoefficientError).toBeCloseTo(0.022280687, 9);
    expect(at50.studentFactor).toBeCloseTo(2.446911851, 8);
    expect(at50.exponentHigh - at50.exponent).toBeCloseTo(0.015659817, 8);
    expect(Math.log(at50.coefficientHigh / at50.coefficient)).toBeCloseTo(0.054518878, 8);
    expect(at50.rSquared).toBeCloseTo(0.999408803, 9);
    expect(at50.flow).toBeCloseTo(1519.878647, 6);
    expect(at50.flowLow).toBeCloseTo(1504.967336, 5);
    expect(at50.flowHigh).toBeCloseTo(1534.9377, 5);
    expect(at50.logFlowError).toBeCloseTo(0.004029283, 9);
    expect(at50.meanLogPressure).toBeCloseTo(3.454483182, 9);
    expect(at50.spread / 7).toBeCloseTo(0.213764313, 9);
    const at4 = fast(noisyHouse, 4);
    expect(at4.flow).toBeCloseTo(298.405722, 6);
    expect(at4.flowLow).toBeCloseTo(288.69363, 4);
    expect(at4.flowHigh).toBeCloseTo(308.44454, 4);
    expect(at4.logFlowError).toBeCloseTo(0.013522353, 9);
  });

  it('has a covariance that gives the interval at any pressure', () => {
    const pressure = fc.double({ min: 1, max: 100, noNaN: true });
    fc.assert(
      fc.property(pressure, (p) => {
        const found = fast(noisyHouse, p);
        const x = Math.log(p);
        const variance =
          found.logCoefficientError ** 2 + x ** 2 * found.exponentError ** 2 + 2 * x * found.covariance;
        expect(Math.sqrt(variance) / found.logFlowError).toBeCloseTo(1, 9);
      }),
    );
  });

  it('agrees with the line through the same points, weighted by repeating a point', () => {
    const slow = fitPowerLaw([...noisyHouse, noisyHouse[2]!, noisyHouse[2]!]);
    const weights = noisyHouse.map((_, i) => (i === 2 ? 3 : 1));
    const found = fast(noisyHouse, 50, weights);
    expect(slow.ok && slow.value.exponent).toBeCloseTo(found.exponent, 12);
    expect(slow.ok && slow.value.coefficient).toBeCloseTo(found.coefficient, 9);
    expect(slow.ok && slow.value.rSquared).toBeCloseTo(found.rSquared, 12);
    expect(
      fast(
        noisyHouse,
        50,
        weights.map(() => 1),
      ),
    ).toEqual(fast(noisyHouse));
  });

  it('takes more points than it has kept room for', () => {
    const many = Array.from({ length: 100 }, (_, i) => ({
      pressure: 10 + i / 2,
      flow: 90 * (10 + i / 2) ** 0.6,
    }));
    expect(fast(many)).toMatchObject({ ok: true, exponent: expect.closeTo(0.6, 12) });
  });

  const good = noisyHouse.slice(0, 3);
  it.each([
    ['two points', good.slice(1), undefined, undefined],
    ['one pressure', [50, 50, 50].map((pressure, i) => ({ pressure, flow: 900 + i })), undefined, undefined],
    ['a flow of zero', [...good, { pressure: 9, flow: 0 }], undefined, undefined],
    ['a negative pressure', [...good, { pressure: -9, flow: 3 }], undefined, undefined],
    ['no number', [...good, { pressure: 9, flow: NaN }], undefined, undefined],
    ['an infinite flow', [...good, { pressure: 9, flow: Infinity }], undefined, undefined],
    ['a reference of zero', good, 0, undefined],
    ['an infinite reference', good, Infinity, undefined],
    ['a weight of zero', good, 50, [1, 1, 0]],
    ['a weight that is none', good, 50, [1, NaN, 1]],
  ])('refuses %s', (_what, points, reference, weights) => {
    const into = new Float64Array(fastFitSize).fill(7);
    const found = fitPowerLawFast(
      points.map(({ pressure }) => pressure),
      points.map(({ flow }) => flow),
      points.length,
      into,
      reference,
      weights ?? null,
    );
    expect(found).toBe(false);
    expect(into.every((number) => number === 7)).toBe(true);
  });
});
