import { quantities, type QuantityKind, type UnitSystem } from '../quantities.ts';
import { convert } from './convert.ts';
import { roundTo, withoutNoise } from './round.ts';
import type { ConvertibleUnit } from './unit-table.ts';

const siUnits: Record<QuantityKind, ConvertibleUnit> = {
  staticPressure: 'Pa',
  pressureDifference: 'Pa',
  airflow: 'L/s',
  floorArea: 'm2',
  volume: 'm3',
  openingArea: 'cm2',
  length: 'mm',
  height: 'm',
  airChangeRate: '1/h',
  leakagePerFloorArea: 'L/s/10m2',
  openingPerFlow: 'cm2/(L/s)',
  concentration: 'ppm',
  temperature: 'degC',
  duration: 's',
  power: 'W',
  airDensity: 'kg/m3',
  massFlow: 'kg/s',
  share: '%',
  ratio: '1',
  count: '1',
};

/** The unit in which a page shows a quantity in a unit system. Stored units are those shown in `us`. */
export function displayUnit(kind: QuantityKind, system: UnitSystem): ConvertibleUnit {
  return system === 'si' ? siUnits[kind] : quantities[kind].unit;
}

/**
 * A stored value in the unit that a page shows, not rounded to decimals but free of float noise (12
 * significant digits); in `us` the value itself. Formula and factors: see `convert`.
 * @throws RangeError when the value is not finite.
 */
export function toDisplay(kind: QuantityKind, value: number, system: UnitSystem): number {
  if (system === 'us') return convert(value, quantities[kind].unit, quantities[kind].unit);
  return withoutNoise(convert(value, quantities[kind].unit, siUnits[kind]));
}

/**
 * A value as shown or entered on a page, in the stored unit, free of float noise (12 significant digits); in
 * `us` the value itself. The inverse of `toDisplay` to 12 digits.
 * @throws RangeError when the value is not finite.
 */
export function fromDisplay(kind: QuantityKind, value: number, system: UnitSystem): number {
  if (system === 'us') return convert(value, quantities[kind].unit, quantities[kind].unit);
  return withoutNoise(convert(value, siUnits[kind], quantities[kind].unit));
}

/**
 * A stored value as text with its unit, e.g. `0.092 in. w.c.`: the decimals of the quantity, halves rounded
 * away from zero, a minus sign but never "-0", no thousands separator (a comma is a decimal sign to some).
 * A value that is not finite gives "—". Never throws.
 */
export function format(kind: QuantityKind, value: number, system: UnitSystem): string {
  if (!Number.isFinite(value)) return '—';
  const { label, decimals } = quantities[kind][system];
  const shown = roundTo(toDisplay(kind, value, system), decimals).toFixed(decimals);
  return label === '' ? shown : `${shown} ${label}`;
}
