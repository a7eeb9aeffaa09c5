import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { convert } from './convert.ts';
import { type ConvertibleUnit, unitTable } from './unit-table.ts';

describe('convert', () => {
  // 1 in. w.c. at 4 °C, 3 Pa and 0.01 in.: computed independently. The rest follows from the exact foot and inch.
  it.each<[number, ConvertibleUnit, number, ConvertibleUnit, number]>([
    [1, 'inH2O', 249.08891, 'Pa', 5],
    [0.01, 'inH2O', 2.490889, 'Pa', 6],
    [3, 'Pa', 0.012044, 'inH2O', 6],
    [1, 'cfm', 0.4719474432, 'L/s', 12],
    [1, 'cfm', 1.69901079552, 'm3/h', 12],
    [1, 'ft2', 0.09290304, 'm2', 12],
    [1, 'ft3', 28.316846592e-3, 'm3', 12],
    [1, 'in2', 6.4516, 'cm2', 12],
    [1, 'in', 25.4, 'mm', 12],
    [8.2, 'ft', 2.49936, 'm', 12],
    [68, 'degF', 20, 'degC', 12],
    [-40, 'degC', -40, 'degF', 12],
    [212, 'degF', 100, 'degC', 11],
    [4, 'cfm/100ft2', 2.032, 'L/s/10m2', 12],
    [1, 'in2/cfm', 13.670166, 'cm2/(L/s)', 5],
    [5, 'ppm', 5, 'ppm', 12],
  ])('%s %s is %s %s', (value, from, expected, to, digits) => {
    expect(convert(value, from, to)).toBeCloseTo(expected, digits);
  });

  it('comes back to the value it started from, for every pair of units of a dimension', () => {
    const units = Object.keys(unitTable) as ConvertibleUnit[];
    const pairs = units.flatMap((a) => units.filter((b) => sameDimension(a, b)).map((b) => [a, b] as const));
    fc.assert(
      fc.property(
        fc.constantFrom(...pairs),
        fc.double({ min: -1e4, max: 1e4, noNaN: true }),
        ([a, b], value) => {
          expect(convert(convert(value, a, b), b, a)).toBeCloseTo(value, 8);
        },
      ),
    );
  });

  it('keeps a value bit for bit in its own unit', () => {
    expect(convert(0.1 + 0.2, 'inH2O', 'inH2O')).toBe(0.1 + 0.2);
    expect(convert(71.3, 'degF', 'degF')).toBe(71.3);
  });

  it('refuses units of different dimensions, unknown units and numbers that are none', () => {
    expect(() => convert(1, 'cfm', 'Pa')).toThrow('cannot convert cfm (airflow) to Pa (pressure)');
    expect(() => convert(1, 'bar' as ConvertibleUnit, 'Pa')).toThrow('unknown unit bar');
    expect(() => convert(1, 'Pa', 'toString' as ConvertibleUnit)).toThrow('unknown unit toString');
    expect(() => convert(NaN, 'Pa', 'Pa')).toThrow('cannot convert NaN');
    expect(() => convert(Infinity, 'Pa', 'inH2O')).toThrow(RangeError);
  });
});

function sameDimension(a: ConvertibleUnit, b: ConvertibleUnit): boolean {
  return unitTable[a].dimension === unitTable[b].dimension;
}
