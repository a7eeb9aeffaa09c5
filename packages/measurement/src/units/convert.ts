import { type ConvertibleUnit, unitTable } from './unit-table.ts';

/**
 * Converts a number from one unit to another of the same dimension.
 * Formula: (value × factor(from) + offset(from) − offset(to)) / factor(to); the factors and their sources are
 * in `unitTable` (exact definitions; 1 in. w.c. = 249.08891 Pa at 4 °C). Units of temperature convert as
 * readings, not as differences.
 * @throws RangeError when a unit is unknown, the dimensions differ or the value is not finite.
 */
export function convert(value: number, fromUnit: ConvertibleUnit, toUnit: ConvertibleUnit): number {
  if (!Object.hasOwn(unitTable, fromUnit)) throw new RangeError(`unknown unit ${String(fromUnit)}`);
  if (!Object.hasOwn(unitTable, toUnit)) throw new RangeError(`unknown unit ${String(toUnit)}`);
  if (!Number.isFinite(value)) throw new RangeError(`cannot convert ${value}`);
  const from = unitTable[fromUnit];
  const to = unitTable[toUnit];
  if (from.dimension !== to.dimension) {
    throw new RangeError(`cannot convert ${fromUnit} (${from.dimension}) to ${toUnit} (${to.dimension})`);
  }
  // The same unit must come back bit for bit, so that an entered decimal survives.
  if (fromUnit === toUnit) return value;
  return (value * from.factor + (from.offset - to.offset)) / to.factor;
}
