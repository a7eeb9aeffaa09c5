import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { evenReach, linearScale, logReach, logScale } from './scale.ts';
import { linearTicks, logTicks } from './ticks.ts';

const positive = fc.double({ min: 1e-6, max: 1e6, noNaN: true });
const pair = fc.tuple(positive, positive).filter(([a, b]) => b / a > 1.01);

describe('ticks', () => {
  it('are round numbers', () => {
    expect(linearTicks(0, 10)).toEqual([0, 2, 4, 6, 8, 10]);
    expect(linearTicks(-0.3, 0.3, 3)).toEqual([-0.2, 0, 0.2]);
    expect(logTicks(1, 1000)).toEqual([1, 2, 5, 10, 20, 50, 100, 200, 500, 1000]);
    expect(logTicks(14, 63)).toEqual([15, 20, 30, 50]);
    expect(logTicks(900, 1400)).toEqual([1000, 1200, 1400]);
  });
  it('lie within the axis, in order, and never run away', () => {
    fc.assert(
      fc.property(pair, ([low, high]) => {
        for (const ticks of [linearTicks(low, high), logTicks(low, high)]) {
          expect(ticks.length).toBeLessThan(45);
          expect([...ticks].sort((a, b) => a - b)).toEqual(ticks);
          for (const tick of ticks) {
            expect(tick).toBeGreaterThanOrEqual(low - (high - low) * 1e-6);
            expect(tick).toBeLessThanOrEqual(high + (high - low) * 1e-6);
          }
        }
      }),
    );
  });
  it('are few or none for an axis that is none', () => {
    expect(linearTicks(2, 2)).toEqual([2]);
    expect(linearTicks(Number.NaN, 2)).toEqual([]);
    expect(logTicks(0, 5)).toEqual([]);
    expect(logTicks(5, Infinity)).toEqual([5]);
  });
});

describe('a scale', () => {
  it('puts its ends on the ends of the drawing', () => {
    for (const scale of [linearScale(2, 32, [40, 400]), logScale(2, 32, [40, 400])]) {
      expect(scale.at(2)).toBeCloseTo(40, 9);
      expect(scale.at(32)).toBeCloseTo(400, 9);
    }
  });
  it('gives equal ratios equal lengths', () => {
    const { at } = logScale(1, 100, [300, 0]);
    expect(at(10)).toBeCloseTo(150, 9);
    expect(at(1) - at(4)).toBeCloseTo(at(4) - at(16), 9);
    expect(Number.isFinite(at(0))).toBe(true);
  });
  it('grows with the value', () => {
    fc.assert(
      fc.property(pair, positive, positive, ([low, high], a, b) => {
        const { at } = logScale(low, high, [0, 100]);
        if (a <= b) expect(at(a)).toBeLessThanOrEqual(at(b));
      }),
    );
  });
});

describe('the reach of an axis', () => {
  it('holds every number with room', () => {
    const [low, high] = logReach([10, 50, 0, Number.NaN])!;
    expect(low).toBeLessThan(10);
    expect(high).toBeGreaterThan(50);
    expect(logReach([0, -1])).toBeNull();
    const [single, alone] = logReach([50])!;
    expect(single).toBeLessThan(50);
    expect(alone).toBeGreaterThan(50);
  });
  it('is the same above and below zero', () => {
    expect(evenReach([1, -3], 2)).toEqual([-3.45, 3.45].map((each) => expect.closeTo(each, 9)));
    expect(evenReach([], 2)).toEqual([-2.3, 2.3].map((each) => expect.closeTo(each, 9)));
  });
});
