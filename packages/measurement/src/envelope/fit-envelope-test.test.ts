import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { noisyHouse, textbookHouse } from '../testing/reference-data.ts';
import { convert } from '../units/convert.ts';
import { envelopeFlowAt } from './figures.ts';
import { fitEnvelopeTest } from './fit-envelope-test.ts';
import type { EnvelopeFit, EnvelopeReading, EnvelopeTest } from './types.ts';

function fitOf(test: Partial<EnvelopeTest>): EnvelopeFit {
  const found = fitEnvelopeTest({ baselineBefore: 0, baselineAfter: 0, points: noisyHouse, ...test });
  if (!found.ok) throw new Error(found.problem.message);
  return found.value;
}

function refusal(test: Partial<EnvelopeTest>): string {
  const found = fitEnvelopeTest({ baselineBefore: 0, points: noisyHouse, ...test });
  return found.ok ? 'accepted' : `${found.problem.path} ${found.problem.code}`;
}

const law = (n: number, pressures: number[], c = 120): EnvelopeReading[] =>
  pressures.map((pressure) => ({ pressure, flow: c * Math.abs(pressure) ** n }));
const codes = (fit: EnvelopeFit) => fit.findings.map(({ code }) => code);
const steady = [10, 20, 30, 40, 50, 60];

describe('fitEnvelopeTest', () => {
  // Published (seen): 234.9 m³/h and 159.9 cm² at 10 Pa with 1.2 kg/m³; long digits computed independently. The
  // page says that r² below 0.98 makes a test invalid; this one has 0.9815.
  it('meets the textbook’s house', () => {
    const points = textbookHouse.map(({ pressure, flow }) => ({
      pressure,
      flow: convert(flow, 'm3/h', 'cfm'),
    }));
    const { directions, figures, valid } = fitOf({ points });
    expect(directions[0]?.exponent).toBeCloseTo(0.643448788947, 11);
    expect(directions[0]?.exponentLow).toBeCloseTo(0.520742, 6);
    expect(directions[0]?.exponentHigh).toBeCloseTo(0.766156, 6);
    expect(directions[0]?.direction).toBe('pressurise');
    const cubicMetres = (cfm: number) => convert(cfm, 'cfm', 'm3/h');
    expect(cubicMetres(figures.flowAt10.value)).toBeCloseTo(234.938637983, 7);
    expect(cubicMetres(figures.flowAt50.value)).toBeCloseTo(661.768132, 6);
    expect(cubicMetres(figures.flowAt50.low)).toBeCloseTo(600.401519, 6);
    expect(cubicMetres(figures.flowAt50.high)).toBeCloseTo(729.406983, 6);
    expect(cubicMetres(figures.flowAt4.low)).toBeCloseTo(100.668887, 6);
    expect(cubicMetres(figures.flowAt4.high)).toBeCloseTo(168.618644, 6);
    expect(convert(figures.effectiveLeakageArea.value, 'in2', 'cm2')).toBeCloseTo(140.4055, 4);
    const at10 = convert(figures.leakageAreaAt10.value, 'in2', 'cm2') * Math.sqrt(1.2 / 1.2041);
    expect(at10).toBeCloseTo(159.855495534, 7);
    expect(valid).toBe(true);
  });

  // Computed independently.
  it('meets the invented noisy house with its volume', () => {
    const { directions, figures, baseline } = fitOf({ volume: 20400, floorArea: 2400, envelopeArea: 5000 });
    expect(directions[0]).toMatchObject({
      exponent: expect.closeTo(0.644539441, 9),
      exponentUncertainty: expect.closeTo(0.006399829, 9),
      coefficient: expect.closeTo(122.111266641, 8),
      logCoefficientUncertainty: expect.closeTo(0.022280687, 9),
      studentFactor: expect.closeTo(2.446911851, 8),
      rSquared: expect.closeTo(0.999408803, 9),
      degreesOfFreedom: 6,
      lowestPressure: 15.5,
      highestPressure: 60,
    });
    expect(figures.flowAt50).toMatchObject({
      value: expect.closeTo(1519.878647, 6),
      low: expect.closeTo(1504.967336, 5),
      high: expect.closeTo(1534.9377, 5),
      coverageFactor: expect.closeTo(2.446911851, 8),
      extrapolated: false,
    });
    expect(figures.flowAt50.standardUncertainty / figures.flowAt50.value).toBeCloseTo(0.004029283, 9);
    expect(figures.flowAtReference.value).toBe(figures.flowAt50.value);
    expect(figures.flowAt4).toMatchObject({ value: expect.closeTo(298.405722, 6), extrapolated: true });
    expect(figures.effectiveLeakageArea.value).toBeCloseTo(84.6876, 4);
    expect(figures.airChangesAt50?.value).toBeCloseTo(4.470231, 6);
    expect(figures.perFloorArea?.value).toBeCloseTo(1519.878647 / 24, 6);
    expect(figures.perEnvelopeArea?.value).toBeCloseTo(1519.878647 / 5000, 9);
    expect(baseline).toEqual({ mean: 0, before: 0, after: 0, drift: 0, deviation: null });
  });

  // Vector A and the constants of leakage areas: computed independently.
  it('meets the exact house', () => {
    const points = [536.0203, 841.106, 1094.7377, 1319.8368, 1525.8497, 1717.8275].map((flow, i) => ({
      pressure: steady[i]!,
      flow,
    }));
    const { figures, directions } = fitOf({ points });
    expect(directions[0]?.exponent).toBeCloseTo(0.65, 6);
    expect(figures.flowAt4.value).toBeCloseTo(295.474659, 3);
    expect(figures.effectiveLeakageArea.value).toBeCloseTo(83.8557, 3);
    expect(figures.flowAt50.value / figures.effectiveLeakageArea.value).toBeCloseTo(18.19613, 4);
  });

  it('finds a noise-free power law again, whatever the baseline, direction and weights', () => {
    const given = fc.record({
      n: fc.double({ min: 0.5, max: 1, noNaN: true }),
      c: fc.double({ min: 1, max: 500, noNaN: true }),
      sign: fc.constantFrom(1, -1),
      baseline: fc.double({ min: -2, max: 2, noNaN: true }),
      weighting: fc.constantFrom('ordinary' as const, 'flow-squared' as const, 'uncertainty' as const),
    });
    fc.assert(
      fc.property(given, ({ n, c, sign, baseline, weighting }) => {
        const points = law(n, steady, c).map(({ pressure, flow }) => ({
          pressure: sign * pressure + baseline,
          flow,
          flowUncertainty: flow * 0.02,
          pressureUncertainty: 0.3,
        }));
        const fit = fitOf({ points, baselineBefore: baseline, baselineAfter: baseline, weighting });
        expect(fit.directions[0]?.exponent).toBeCloseTo(n, 9);
        expect(fit.figures.flowAt50.value / (c * 50 ** n)).toBeCloseTo(1, 9);
        expect(fit.directions[0]?.direction).toBe(sign > 0 ? 'pressurise' : 'depressurise');
      }),
    );
  });

  it('does not depend on the order of the points nor on the unit of flow', () => {
    const one = fitOf({}).figures;
    fc.assert(
      fc.property(
        fc.shuffledSubarray(noisyHouse, { minLength: 8 }),
        fc.double({ min: 0.1, max: 10, noNaN: true }),
        (points, by) => {
          const { figures } = fitOf({
            points: points.map(({ pressure, flow }) => ({ pressure, flow: flow * by })),
          });
          expect(figures.flowAt50.high / one.flowAt50.high).toBeCloseTo(by, 9);
        },
      ),
    );
  });

  it('grows with every flow', () => {
    fc.assert(
      fc.property(fc.double({ min: 1.001, max: 2, noNaN: true }), (by) => {
        const more = noisyHouse.map((point) => ({ ...point, flow: point.flow * by }));
        expect(fitOf({ points: more }).figures.flowAt50.value).toBeGreaterThan(
          fitOf({}).figures.flowAt50.value,
        );
      }),
    );
  });
});

describe('baseline and directions', () => {
  it('takes the mean of both averages off, whatever the number of their readings', () => {
    const points = law(
      0.65,
      steady.map((p) => -p - 1.5),
    );
    const shifted = points.map(({ pressure }, i) => ({ pressure, flow: 120 * steady[i]! ** 0.65 }));
    const fit = fitOf({ points: shifted, baselineBefore: [-1.2, -0.8], baselineAfter: [-2, -1.5, -2.5] });
    expect(fit.baseline).toEqual({
      mean: -1.5,
      before: -1,
      after: -2,
      drift: -1,
      deviation: expect.closeTo(0.4397, 4),
    });
    expect(fit.directions[0]?.exponent).toBeCloseTo(0.65, 12);
    expect(fit.steps[0]).toEqual({
      label: 'Baseline taken off',
      working: 'mean(-1, -2)',
      value: -1.5,
      unit: 'Pa',
    });
  });

  it('takes the mean of both directions', () => {
    const out = law(
      0.65,
      steady.map((p) => -p),
      100,
    );
    const into = law(0.6, steady, 130);
    const both = fitOf({ points: [...into, ...out] });
    expect(both.directions.map(({ direction }) => direction)).toEqual(['depressurise', 'pressurise']);
    const mean = (100 * 50 ** 0.65 + 130 * 50 ** 0.6) / 2;
    expect(both.figures.flowAt50.value).toBeCloseTo(mean, 8);
    expect(codes(both)).toEqual(['directions-differ']);
    expect(both.valid).toBe(true);
    expect(both.steps.at(-4)?.working).toBe('mean of 100 × 50^0.65 and 130 × 50^0.6');
  });

  it('halves the variance with two alike directions, and counts both freedoms', () => {
    const points = [
      ...noisyHouse,
      ...noisyHouse.map(({ pressure, flow }) => ({ pressure: -pressure, flow })),
    ];
    const [one, both] = [fitOf({}).figures.flowAt50, fitOf({ points }).figures.flowAt50];
    expect(both.value).toBeCloseTo(one.value, 8);
    expect(both.standardUncertainty).toBeCloseTo(one.standardUncertainty / Math.SQRT2, 8);
    expect(both.coverageFactor).toBeCloseTo(2.178813, 6);
    expect(codes(fitOf({ points }))).toEqual([]);
  });
});

describe('uncertainty that points share', () => {
  it('adds to the scatter and widens the interval', () => {
    const alone = fitOf({}).figures;
    const shared = fitOf({ shared: { flow: 0.02, pressure: 0.01, size: 0.03 }, volume: 20400 }).figures;
    const relative = shared.flowAt50.standardUncertainty / shared.flowAt50.value;
    const own = alone.flowAt50.standardUncertainty / alone.flowAt50.value;
    expect(relative).toBeCloseTo(Math.hypot(own, 0.02, 0.01 * 0.644539441), 11);
    const changes = shared.airChangesAt50!;
    expect(changes.standardUncertainty / changes.value).toBeCloseTo(Math.hypot(relative, 0.03), 12);
    expect(shared.flowAt50.high).toBeGreaterThan(alone.flowAt50.high);
    expect(shared.flowAt50.coverageFactor).toBe(2);
  });

  it('is all there is for a noise-free house', () => {
    const found = fitOf({ points: law(0.65, [8, 16, 32, 64]), shared: { flow: 0.02 } }).figures.flowAt50;
    expect(found.standardUncertainty / found.value).toBeCloseTo(0.02, 9);
    expect(found.coverageFactor).toBe(2);
  });
});

describe('envelopeFlowAt', () => {
  it('is narrowest amid the points and gives the coefficient at 1 Pa', () => {
    const { directions } = fitOf({});
    const at = (pressure: number) => {
      const found = envelopeFlowAt(directions, pressure);
      if (!found.ok) throw new Error(found.problem.message);
      return found.value;
    };
    const relative = (pressure: number) => at(pressure).standardUncertainty / at(pressure).value;
    expect(relative(31.6)).toBeLessThan(relative(60));
    expect(relative(31.6)).toBeLessThan(relative(10));
    expect(at(1).value).toBeCloseTo(directions[0]!.coefficient, 9);
    expect(at(1).low).toBeCloseTo(directions[0]!.coefficientLow, 6);
    expect(envelopeFlowAt(directions, 0)).toMatchObject({ problem: { code: 'bad-pressure' } });
    expect(envelopeFlowAt(directions, Infinity)).toMatchObject({ problem: { code: 'bad-pressure' } });
    expect(envelopeFlowAt([], 50)).toMatchObject({ problem: { code: 'no-direction' } });
  });
});

describe('weights', () => {
  it('heed a point the less, the larger its uncertainty', () => {
    const points = noisyHouse.map((point, i) => ({
      ...point,
      flow: i === 0 ? point.flow * 1.1 : point.flow,
      flowUncertainty: point.flow * (i === 0 ? 1 : 0.01),
    }));
    const ordinary = fitOf({ points }).figures.flowAt50.value;
    const weighted = fitOf({ points, weighting: 'uncertainty' });
    const truth = fitOf({ points: points.slice(1) }).figures.flowAt50.value;
    expect(Math.abs(weighted.figures.flowAt50.value / truth - 1)).toBeLessThan(1e-4);
    expect(Math.abs(ordinary / truth - 1)).toBeGreaterThan(0.01);
    const weights = weighted.directions[0]!.points.map(({ weight }) => weight);
    expect(weights.reduce((sum, weight) => sum + weight, 0)).toBeCloseTo(8, 9);
  });

  it('by flow squared heed the high points most', () => {
    const points = noisyHouse.map((point, i) => ({
      ...point,
      flow: i === 7 ? point.flow * 1.1 : point.flow,
    }));
    const ordinary = fitOf({ points }).directions[0]!.exponent;
    const weighted = fitOf({ points, weighting: 'flow-squared' }).directions[0]!.exponent;
    expect(Math.abs(weighted - 0.6445)).toBeLessThan(Math.abs(ordinary - 0.6445));
  });

  it('by uncertainty need uncertainties', () => {
    expect(refusal({ weighting: 'uncertainty' })).toBe('points no-uncertainty');
  });
});

describe('refusals', () => {
  const withPoint = (part: Partial<EnvelopeReading>) => ({
    points: noisyHouse.map((point, i) => (i === 2 ? { ...point, ...part } : point)),
  });
  it.each<[Partial<EnvelopeTest>, string]>([
    [withPoint({ pressure: NaN }), 'points.2.pressure not-a-number'],
    [withPoint({ pressure: 0 }), 'points.2.pressure zero-pressure'],
    [withPoint({ pressure: 501 }), 'points.2.pressure out-of-plausible-range'],
    [withPoint({ flow: 0 }), 'points.2.flow bad-flow'],
    [withPoint({ flow: NaN }), 'points.2.flow bad-flow'],
    [withPoint({ flow: 1_000_001 }), 'points.2.flow out-of-plausible-range'],
    [withPoint({ flowUncertainty: -1 }), 'points.2 bad-uncertainty'],
    [withPoint({ pressureUncertainty: NaN }), 'points.2 bad-uncertainty'],
    [withPoint({ pressure: -41 }), 'points too-few-points'],
    [{ points: [] }, 'points too-few-points'],
    [{ points: noisyHouse.slice(0, 2) }, 'points too-few-points'],
    [{ points: law(0.65, [50, 50, 50, 49, 49]) }, 'points too-few-points'],
    [{ points: law(0.65, [50, 50.5, 51]) }, 'points same-pressure'],
    [{ points: law(6, [2, 3, 4]) }, 'points no-power-law'],
    [{ baselineBefore: [] }, 'baselineBefore no-baseline'],
    [{ baselineBefore: NaN }, 'baselineBefore not-a-number'],
    [{ baselineAfter: [1, Infinity] }, 'baselineBefore not-a-number'],
    [{ baselineBefore: 1e308 }, 'points.0.pressure out-of-plausible-range'],
    [{ volume: 0 }, 'volume bad-size'],
    [{ floorArea: -1 }, 'floorArea bad-size'],
    [{ envelopeArea: Infinity }, 'envelopeArea bad-size'],
    [{ reference: 0 }, 'reference bad-reference'],
    [{ reference: Infinity }, 'reference bad-reference'],
    [{ shared: { flow: -0.1 } }, 'shared bad-shared'],
    [{ shared: { size: 1 } }, 'shared bad-shared'],
  ])('refuses %o', (part, words) => {
    expect(refusal(part)).toBe(words);
  });

  it('never throws, whatever the numbers', () => {
    const any = fc.oneof(
      fc.double(),
      fc.double({ min: -100, max: 100 }),
      fc.constantFrom(0, 50, -50, 1e-300),
    );
    const point = fc.record({ pressure: any, flow: fc.oneof(any, fc.double({ min: 1, max: 5000 })) });
    fc.assert(
      fc.property(fc.array(point, { maxLength: 9 }), any, any, (points, baselineBefore, reference) => {
        expect(() => fitEnvelopeTest({ points, baselineBefore, reference })).not.toThrow();
      }),
      { numRuns: 500 },
    );
  });
});
