import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { plainNumber, roundTo, withoutNoise } from './round.ts';

describe('roundTo', () => {
  it.each([
    [1.005, 2, 1.01],
    [-1.005, 2, -1.01],
    [2.5, 0, 3],
    [-2.5, 0, -3],
    [0.0915, 3, 0.092],
    [0.09149, 3, 0.091],
    [1e-9, 3, 0],
    [1.5e-7, 7, 2e-7],
    [123456, 0, 123456],
    [0.285, 2, 0.29],
  ])('rounds %s to %s decimals as %s', (value, decimals, expected) => {
    expect(roundTo(value, decimals)).toBe(expected);
  });

  it('never gives minus zero', () => {
    expect(Object.is(roundTo(-0.0001, 2), 0)).toBe(true);
    expect(Object.is(roundTo(-0, 2), 0)).toBe(true);
  });

  it('moves a value by at most half a step and is settled after once', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e6, max: 1e6, noNaN: true }),
        fc.integer({ min: 0, max: 6 }),
        (value, decimals) => {
          const rounded = roundTo(value, decimals);
          expect(Math.abs(rounded - value)).toBeLessThanOrEqual(0.5 * 10 ** -decimals + 1e-9);
          expect(roundTo(rounded, decimals)).toBe(rounded);
        },
      ),
    );
  });

  it('refuses what cannot be rounded', () => {
    expect(() => roundTo(NaN, 2)).toThrow('cannot round NaN');
    expect(() => roundTo(Infinity, 2)).toThrow(RangeError);
    expect(() => roundTo(1, -1)).toThrow('cannot round to -1 decimals');
    expect(() => roundTo(1, 1.5)).toThrow(RangeError);
    expect(() => roundTo(1, 16)).toThrow(RangeError);
    expect(roundTo(1, 15)).toBe(1);
  });
});

describe('withoutNoise and plainNumber', () => {
  it('takes off what only the binary numbers brought', () => {
    expect(withoutNoise(0.1 + 0.2)).toBe(0.3);
    expect(Object.is(withoutNoise(-0), 0)).toBe(true);
  });

  it('writes at most three decimals and no trailing zeros', () => {
    expect(plainNumber(95.1)).toBe('95.1');
    expect(plainNumber(95.10594)).toBe('95.106');
    expect(plainNumber(0.1234567, 6)).toBe('0.123457');
    expect(plainNumber(70)).toBe('70');
  });
});
