import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ductTester } from '../testing/instruments.ts';
import { powerLawFlow } from './power-law.ts';
import { rangeFlow } from './range-flow.ts';
import { airChangesPerHour, cfmPer100ft2 } from './rates.ts';
import { sumFlows } from './sum.ts';

describe('powerLawFlow', () => {
  // C = 120, n = 0.65: computed independently.
  it.each([
    [4, 295.474659],
    [10, 536.0203],
    [20, 841.106],
    [50, 1525.8497],
    [60, 1717.8275],
  ])('gives at %s Pa %s', (pressure, flow) => {
    expect(powerLawFlow(120, 0.65, pressure)).toBeCloseTo(flow, 4);
    expect(powerLawFlow(120, 0.65, -pressure)).toBeCloseTo(flow, 4);
  });

  it('gives no number for what is none', () => {
    expect(powerLawFlow(NaN, 0.65, 10)).toBeNaN();
    expect(powerLawFlow(120, Infinity, 10)).toBeNaN();
    expect(powerLawFlow(120, 0.65, NaN)).toBeNaN();
  });
});

describe('rangeFlow', () => {
  it('uses the range’s own coefficients, limits included, whichever way the tubing is connected', () => {
    expect(rangeFlow(ductTester, 'small', 100)).toEqual({
      ok: true,
      value: {
        flow: 50,
        exponent: 0.5,
        step: { label: 'Flow on range small', working: '5 × 100^0.5', value: 50, unit: 'cfm' },
      },
    });
    expect(rangeFlow(ductTester, 'large', -100)).toMatchObject({ ok: true, value: { flow: 200 } });
    expect(rangeFlow(ductTester, 'small', 10).ok).toBe(true);
    expect(rangeFlow(ductTester, 'small', 400).ok).toBe(true);
  });

  it.each([
    [
      'small',
      9.99,
      'below-range',
      '9.99 Pa, but range small holds from 10 to 400 Pa. Use a smaller opening.',
    ],
    [
      'small',
      400.1,
      'above-range',
      '400.1 Pa, but range small holds from 10 to 400 Pa. Use a larger opening.',
    ],
    ['small', 0, 'zero-pressure', 'The fan pressure is 0 Pa'],
    ['small', NaN, 'not-a-number', 'not a number'],
    ['middle', 50, 'unknown-range', 'has no range "middle". It has: small, large.'],
  ])('refuses range %s at %s Pa: %s', (range, pressure, code, words) => {
    const found = rangeFlow(ductTester, range, pressure);
    expect(found).toMatchObject({ ok: false, problem: { code, message: expect.stringContaining(words) } });
    const path = code === 'unknown-range' ? 'choices.range' : 'values.fanPressure';
    expect(found).toMatchObject({ problem: { path } });
  });

  it('refuses an instrument without ranges and a calibration that gives no flow', () => {
    expect(rangeFlow({ ...ductTester, ranges: [] }, 'small', 50)).toMatchObject({
      problem: { code: 'unknown-range', message: expect.stringContaining('It has: none.') },
    });
    for (const c of [0, -5, NaN]) {
      const broken = { ...ductTester, ranges: [{ range: 'small', c, n: 0.5, minPa: 10, maxPa: 400 }] };
      expect(rangeFlow(broken, 'small', 50)).toMatchObject({
        problem: {
          path: 'choices.range',
          code: 'bad-calibration',
          message: expect.stringContaining('gives no flow'),
        },
      });
    }
  });

  it('grows with the pressure', () => {
    const inside = fc.double({ min: 10, max: 399, noNaN: true });
    fc.assert(
      fc.property(inside, fc.double({ min: 0.001, max: 1, noNaN: true }), (pressure, more) => {
        const [less, greater] = [
          rangeFlow(ductTester, 'small', pressure),
          rangeFlow(ductTester, 'small', pressure + more),
        ];
        expect(less.ok && greater.ok && greater.value.flow > less.value.flow).toBe(true);
      }),
    );
  });
});

describe('rates', () => {
  // First vector: example file of the public data format for home energy ratings (seen). The others: computed.
  it.each([
    [1300, 19200, 4.0625],
    [960, 19200, 3],
    [1500, 24000, 3.75],
    [0, 100, 0],
  ])('%s cfm in %s ft³ are %s air changes per hour', (flow, volume, changes) => {
    expect(airChangesPerHour(flow, volume)).toEqual({ ok: true, value: changes });
  });

  // First vector: the same example file (seen). The others: computed.
  it.each([
    [123, 2400, 5.125],
    [96, 2400, 4],
    [80, 2000, 4],
    [72, 2400, 3],
  ])('%s cfm over %s ft² are %s per 100 ft²', (flow, area, rate) => {
    expect(cfmPer100ft2(flow, area)).toEqual({ ok: true, value: rate });
  });

  it('refuse a volume or an area of zero and a flow below zero, in words', () => {
    for (const bad of [0, -1, NaN, Infinity]) {
      expect(airChangesPerHour(1, bad)).toMatchObject({
        problem: {
          path: 'volume',
          code: 'bad-volume',
          message: `The volume is ${bad} ft³; it must be above zero.`,
        },
      });
      expect(cfmPer100ft2(1, bad)).toMatchObject({
        problem: {
          path: 'floorArea',
          code: 'bad-area',
          message: `The floor area is ${bad} ft²; it must be above zero.`,
        },
      });
    }
    for (const bad of [-1, NaN, Infinity]) {
      const refused = {
        path: 'flow',
        code: 'bad-flow',
        message: `The flow is ${bad} cfm; it must be zero or more.`,
      };
      expect(airChangesPerHour(bad, 100)).toEqual({ ok: false, problem: refused });
      expect(cfmPer100ft2(bad, 100)).toEqual({ ok: false, problem: refused });
    }
  });
});

describe('sumFlows', () => {
  const part = (flow: number, standardUncertainty: number | null) => ({
    label: '',
    flow,
    standardUncertainty,
  });

  it('adds the inlets of one fan: 56 and 50 are 106 (common practice, no published source)', () => {
    expect(sumFlows([part(56, 3), part(50, 4)], 'shared', 'Exhaust flow')).toEqual({
      flow: 106,
      standardUncertainty: 7,
      step: { label: 'Exhaust flow', working: '56 + 50', value: 106, unit: 'cfm' },
    });
  });

  it('combines errors that have nothing to do with each other as the root of the squares', () => {
    expect(sumFlows([part(56, 3), part(50, 4)], 'independent', '').standardUncertainty).toBe(5);
  });

  it('knows no uncertainty when one part has none, and gives zero for nothing', () => {
    expect(sumFlows([part(56, 3), part(50, null)], 'shared', '').standardUncertainty).toBeNull();
    expect(sumFlows([], 'shared', 'x')).toMatchObject({
      flow: 0,
      standardUncertainty: 0,
      step: { working: '0' },
    });
    expect(sumFlows([part(NaN, 1)], 'shared', 'x')).toMatchObject({ flow: NaN, step: { working: 'NaN' } });
  });

  it('does not depend on the order, and shared errors are never the smaller', () => {
    const parts = fc.array(fc.record({ flow: fc.nat(500), u: fc.nat(50) }), { minLength: 1, maxLength: 8 });
    fc.assert(
      fc.property(parts, (drawn) => {
        const list = drawn.map(({ flow, u }) => part(flow, u));
        const there = sumFlows(list, 'shared', '');
        const back = sumFlows([...list].reverse(), 'shared', '');
        expect(back.flow).toBe(there.flow);
        expect(back.standardUncertainty).toBe(there.standardUncertainty);
        const apart = sumFlows(list, 'independent', '').standardUncertainty ?? NaN;
        expect(apart).toBeLessThanOrEqual((there.standardUncertainty ?? NaN) + 1e-9);
      }),
    );
  });
});
