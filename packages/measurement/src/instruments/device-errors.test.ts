import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { boundedRangeFlow } from '../flow/bounded-range-flow.ts';
import { ductTester, instrument, manometer } from '../testing/instruments.ts';
import { boundedReading, intervalAgainst } from './bounded-reading.ts';
import { fanFlowBudget, readingBudget } from './device-budget.ts';
import { type BudgetPart, errorBudget } from './error-budget.ts';

const rectangular = (label: string, size: number): BudgetPart => ({ label, size, shape: 'rectangular' });
const root3 = Math.sqrt(3);

describe('errorBudget', () => {
  it('of GUM H.1: 25, 9.7, 2.9 and 16.6 nm are 32 nm (parts seen; 31.6711 computed independently)', () => {
    const parts = [25, 9.7, 2.9, 16.6].map((size, i): BudgetPart => ({
      label: `Part ${i}`,
      size,
      shape: 'standard',
    }));
    const found = errorBudget('nm', parts);
    expect(found.ok && found.value.standardUncertainty).toBeCloseTo(31.6711, 4);
    expect(found.ok && Math.round(found.value.standardUncertainty)).toBe(32);
    expect(found.ok && found.value.parts.map(({ label }) => label)).toEqual([
      'Part 0',
      'Part 3',
      'Part 1',
      'Part 2',
    ]);
    expect(found).toMatchObject({
      value: { unit: 'nm', coverageFactor: 2, expandedUncertainty: expect.closeTo(63.3422, 3) },
    });
  });

  it('takes each shape for what it is, and shows it', () => {
    const found = errorBudget('cfm', [
      rectangular('Accuracy', 3),
      { label: 'Setting', size: 6, shape: 'triangular' },
      { label: 'Cycling', size: 2, shape: 'arcsine', sensitivity: -3 },
      { label: 'Certificate', size: 5, shape: 'expanded' },
      { label: 'Scatter', size: 0.004, shape: 'standard', sensitivity: 2 },
      { label: 'Nothing', size: 0, shape: 'standard' },
    ]);
    expect(found.ok && found.value.steps).toEqual([
      { label: 'Accuracy', working: '3 / √3', value: expect.closeTo(1.7320508, 6), unit: 'cfm' },
      { label: 'Setting', working: '6 / √6', value: expect.closeTo(2.4494897, 6), unit: 'cfm' },
      { label: 'Cycling', working: '2 / √2 × 3', value: expect.closeTo(4.2426407, 6), unit: 'cfm' },
      { label: 'Certificate', working: '5 / 2', value: 2.5, unit: 'cfm' },
      { label: 'Scatter', working: '0.004 × 2', value: 0.008, unit: 'cfm' },
      {
        label: 'Standard uncertainty',
        working: '√(1.7321² + 2.4495² + 4.2426² + 2.5² + 0.008²)',
        value: expect.closeTo(Math.sqrt(3 + 6 + 18 + 6.25 + 0.000064), 9),
        unit: 'cfm',
      },
    ]);
    expect(found.ok && found.value.parts.at(-1)).toEqual({
      label: 'Nothing',
      standardUncertainty: 0,
      share: 0,
    });
  });

  it('refuses what is no budget', () => {
    expect(errorBudget('Pa', [])).toMatchObject({ problem: { path: 'parts', code: 'no-parts' } });
    for (const bad of [
      rectangular('Drift', -1),
      rectangular('Drift', NaN),
      rectangular('Drift', Infinity),
      { ...rectangular('Drift', 1), sensitivity: NaN },
    ]) {
      expect(errorBudget('Pa', [rectangular('Good', 1), bad])).toMatchObject({
        problem: { path: 'parts.1', code: 'bad-part', message: expect.stringContaining('"Drift"') },
      });
    }
  });

  it('has shares that add to one, does not depend on the order and never falls with a part more', () => {
    const parts = fc.array(fc.double({ min: 0.001, max: 100, noNaN: true }), { minLength: 1, maxLength: 7 });
    fc.assert(
      fc.property(parts, (sizes) => {
        const budget = (list: number[]) => {
          const found = errorBudget(
            'Pa',
            list.map((size) => rectangular('', size)),
          );
          if (!found.ok) throw new Error(found.problem.message);
          return found.value;
        };
        const { standardUncertainty: u, parts: lines } = budget(sizes);
        expect(lines.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9);
        expect(budget([...sizes].reverse()).standardUncertainty).toBeCloseTo(u, 9);
        expect(budget([...sizes, 1]).standardUncertainty).toBeGreaterThan(u);
      }),
    );
    expect(errorBudget('Pa', [rectangular('', 0)])).toMatchObject({
      value: { standardUncertainty: 0, parts: [{ share: 0 }], steps: [{ working: '√(0)' }] },
    });
  });
});

describe('readingBudget', () => {
  it('has the stated accuracy, half a step, the drift and the scatter', () => {
    const gauge = { ...manometer, resolution: 0.1 };
    const found = readingBudget(gauge, 50, { zeroDrift: 0.2, scatter: 0.3 });
    const expected = Math.hypot(0.5 / root3, 0.05 / root3, 0.2 / root3, 0.3);
    expect(found).toMatchObject({
      value: { unit: 'Pa', standardUncertainty: expect.closeTo(expected, 12) },
    });
    expect(found.ok && found.value.parts.map(({ label }) => label)).toEqual([
      'Scatter of the readings',
      'Stated accuracy',
      'Drift of the zero',
      'Step of the display',
    ]);
    expect(readingBudget(manometer, -10)).toMatchObject({
      value: { standardUncertainty: expect.closeTo(0.25 / root3, 12) },
    });
  });

  it('refuses no number and an instrument that states nothing', () => {
    expect(readingBudget(manometer, NaN)).toMatchObject({ problem: { code: 'not-a-number' } });
    const silent = instrument('manometer', { accuracyPercent: 0, label: 'Gauge 7' });
    expect(readingBudget(silent, 5)).toMatchObject({
      problem: { code: 'no-accuracy', message: expect.stringContaining('Gauge 7 states no accuracy') },
    });
    expect(readingBudget(manometer, 5, { zeroDrift: -1 })).toMatchObject({ problem: { code: 'bad-part' } });
  });
});

describe('fanFlowBudget', () => {
  it('brings the gauge’s errors to the flow by the exponent', () => {
    const found = fanFlowBudget(ductTester, 'small', 100, {
      gauge: { ...manometer, resolution: 0.1 },
      zeroDrift: 0.5,
      coefficientPercent: 1,
      densityPercent: 2,
    });
    // 50 cfm at 100 Pa with n = 0.5: a pascal is 0.25 cfm.
    const parts = [1.5 / root3, 0.25 / root3, (0.05 * 0.25) / root3, (0.5 * 0.25) / root3, 0.5, 0.5];
    expect(found).toMatchObject({
      value: {
        flow: 50,
        budget: { unit: 'cfm', standardUncertainty: expect.closeTo(Math.hypot(...parts), 12) },
      },
    });
    expect(found.ok && found.value.steps.map(({ label }) => label)).toEqual([
      'Flow on range small',
      'Stated accuracy',
      'Fan pressure: stated accuracy',
      'Fan pressure: step of the display',
      'Fan pressure: drift of the zero',
      'Coefficient of the range',
      'Density of the air',
      'Standard uncertainty',
    ]);
  });

  it('is the device’s own accuracy when nothing more is said, and knows a drift without a gauge', () => {
    expect(fanFlowBudget(ductTester, 'small', -100)).toMatchObject({
      value: { budget: { standardUncertainty: expect.closeTo(1.5 / root3, 12) } },
    });
    expect(fanFlowBudget(ductTester, 'small', -100, { zeroDrift: 1 })).toMatchObject({
      value: { budget: { standardUncertainty: expect.closeTo(Math.hypot(1.5, 0.25) / root3, 12) } },
    });
  });

  it('costs accuracy low in the window', () => {
    const share = (pressure: number) => {
      const found = fanFlowBudget(ductTester, 'small', pressure, { gauge: manometer });
      return found.ok ? found.value.budget.standardUncertainty / found.value.flow : NaN;
    };
    const pressure = fc.double({ min: 10, max: 24, noNaN: true });
    fc.assert(
      fc.property(pressure, (p) => {
        expect(share(p)).toBeGreaterThan(share(p + 1));
      }),
    );
  });

  it('passes on refusals, of the range, the device and the gauge', () => {
    expect(fanFlowBudget(ductTester, 'small', 5)).toMatchObject({ problem: { code: 'below-range' } });
    expect(fanFlowBudget({ ...ductTester, accuracyPercent: 0 }, 'small', 50)).toMatchObject({
      problem: { code: 'no-accuracy' },
    });
    expect(fanFlowBudget(ductTester, 'small', 50, { gauge: ductTester })).toMatchObject({
      problem: { path: 'gauge', code: 'wrong-gauge' },
    });
    const silent = instrument('manometer', { accuracyPercent: 0 });
    expect(fanFlowBudget(ductTester, 'small', 50, { gauge: silent })).toMatchObject({
      problem: { code: 'no-accuracy' },
    });
    expect(fanFlowBudget(ductTester, 'small', 50, { coefficientPercent: -1 })).toMatchObject({
      problem: { code: 'bad-part' },
    });
  });
});

describe('boundedReading', () => {
  const meter = instrument('exhaust-flow-meter', { accuracyPercent: 10, resolution: 2, label: 'Meter 3' });

  it('takes what the display can show', () => {
    expect(boundedReading(meter, 2)).toEqual({ ok: true, value: { kind: 'read', value: 2 } });
    expect(boundedReading({ ...meter, resolution: null }, 0.1)).toMatchObject({
      value: { kind: 'read', value: 0.1 },
    });
  });

  it('bounds what it cannot show', () => {
    expect(boundedReading(meter, 0)).toEqual({
      ok: true,
      value: {
        kind: 'below-resolution',
        low: 0,
        high: 1,
        words: 'Meter 3 shows steps of 2 cfm; all that is known is: at most 1 cfm.',
      },
    });
    expect(boundedReading(meter, 1)).toMatchObject({ value: { high: 2.1 } });
    expect(boundedReading({ ...meter, accuracyPercent: 0 }, 1)).toMatchObject({ value: { high: 2 } });
  });

  it('refuses what cannot be', () => {
    expect(boundedReading(meter, -1)).toMatchObject({
      problem: { code: 'negative', message: expect.stringContaining('-1 cfm') },
    });
    expect(boundedReading(meter, NaN)).toMatchObject({ problem: { code: 'not-a-number' } });
  });
});

describe('boundedRangeFlow', () => {
  it('reads inside the window and bounds outside it', () => {
    expect(boundedRangeFlow(ductTester, 'small', 100)).toMatchObject({ value: { kind: 'read', flow: 50 } });
    const below = boundedRangeFlow(ductTester, 'small', 5);
    expect(below).toMatchObject({
      value: { kind: 'below-window', low: 0, high: expect.closeTo(5 * Math.sqrt(10), 9) },
    });
    expect(below.ok && below.value.kind !== 'read' && below.value.words).toBe(
      'The fan pressure is 5 Pa, but range small holds from 10 to 400 Pa. Use a smaller opening. All that is known is: at most 15.8 cfm.',
    );
    expect(boundedRangeFlow(ductTester, 'small', 500)).toMatchObject({
      value: {
        kind: 'above-window',
        low: 100,
        high: null,
        words: expect.stringContaining('at least 100 cfm'),
      },
    });
  });

  it('takes the narrower of window and table', () => {
    const lines = [
      { pressure: 20, flow: 30 },
      { pressure: 200, flow: 90 },
    ];
    const device = {
      ...ductTester,
      ranges: [{ range: 'plate', c: 1, n: 1, minPa: 10, maxPa: 400, table: lines }],
    };
    expect(boundedRangeFlow(device, 'plate', 15)).toMatchObject({ value: { high: expect.closeTo(30, 9) } });
    expect(boundedRangeFlow(device, 'plate', 5)).toMatchObject({ value: { high: expect.closeTo(30, 9) } });
    expect(boundedRangeFlow(device, 'plate', 300)).toMatchObject({ value: { low: expect.closeTo(90, 9) } });
  });

  it('refuses the rest as before', () => {
    for (const [pressure, code] of [
      [0, 'zero-pressure'],
      [NaN, 'not-a-number'],
    ] as const)
      expect(boundedRangeFlow(ductTester, 'small', pressure)).toMatchObject({ problem: { code } });
    expect(boundedRangeFlow(ductTester, 'none', 5)).toMatchObject({ problem: { code: 'unknown-range' } });
    const broken = { ...ductTester, ranges: [{ range: 'small', c: 0, n: 1, minPa: 10, maxPa: 20 }] };
    expect(boundedRangeFlow(broken, 'small', 5)).toMatchObject({ problem: { code: 'bad-calibration' } });
  });
});

describe('intervalAgainst', () => {
  it.each([
    [{ low: 0, high: 16 }, 'at-most', 16, 'holds'],
    [{ low: 0, high: 16 }, 'at-most', 15, 'open'],
    [{ low: 100, high: null }, 'at-most', 99, 'fails'],
    [{ low: 100, high: null }, 'at-most', 100, 'open'],
    [{ low: 100, high: null }, 'at-least', 100, 'holds'],
    [{ low: 0, high: 16 }, 'at-least', 17, 'fails'],
    [{ low: 0, high: 16 }, 'at-least', 16, 'open'],
    [{ low: 0, high: null }, 'at-least', NaN, 'open'],
  ] as const)('%o %s %s %s', (interval, side, limit, verdict) => {
    expect(intervalAgainst(interval, side, limit)).toBe(verdict);
  });
});
