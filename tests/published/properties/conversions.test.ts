import { convert, type ConvertibleUnit, fromDisplay, quantities, toDisplay } from '@countercheck/measurement';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

const families: ConvertibleUnit[][] = [
  ['Pa', 'inH2O'],
  ['cfm', 'L/s', 'm3/h'],
  ['ft2', 'm2', 'in2', 'cm2'],
  ['ft3', 'm3'],
  ['in', 'mm', 'ft', 'm'],
  ['cfm/100ft2', 'L/s/10m2'],
  ['in2/cfm', 'cm2/(L/s)'],
  ['degF', 'degC'],
];
const value = fc.double({ min: -1e5, max: 1e5, noNaN: true });

describe('conversions of units', () => {
  it.each(families.map((family) => ({ family })))('$family come back, by any way round', ({ family }) => {
    const unit = fc.constantFrom(...family);
    fc.assert(
      fc.property(value, unit, unit, unit, (number, a, b, c) => {
        const near = 1e-9 * Math.max(1, Math.abs(number));
        expect(Math.abs(convert(convert(number, a, b), b, a) - number)).toBeLessThan(near);
        const round = convert(convert(convert(number, a, b), b, c), c, a);
        expect(Math.abs(round - number)).toBeLessThan(near);
      }),
      { numRuns: 500, seed: 33 },
    );
  });

  it.each(families.map((family) => ({ family })))('$family keep the order of numbers', ({ family }) => {
    const unit = fc.constantFrom(...family);
    fc.assert(
      fc.property(value, value, unit, unit, (one, other, a, b) => {
        const [less, more] = [Math.min(one, other), Math.max(one, other)];
        expect(convert(less, a, b)).toBeLessThanOrEqual(convert(more, a, b));
      }),
      { numRuns: 500, seed: 34 },
    );
  });

  it('show every quantity in both systems and take it back', () => {
    const quantity = fc.constantFrom(...(Object.keys(quantities) as (keyof typeof quantities)[]));
    fc.assert(
      fc.property(value, quantity, fc.constantFrom('us' as const, 'si' as const), (number, kind, system) => {
        const back = fromDisplay(kind, toDisplay(kind, number, system), system);
        expect(Math.abs(back - number)).toBeLessThan(1e-9 * Math.max(1, Math.abs(number)));
      }),
      { numRuns: 3000, seed: 35 },
    );
  });
});
