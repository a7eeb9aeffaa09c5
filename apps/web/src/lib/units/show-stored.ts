import {
  format,
  plainNumber,
  quantities,
  type QuantityKind,
  type UnitSystem,
} from '@countercheck/measurement';

const kinds = Object.keys(quantities) as QuantityKind[];

/** A stored number whose unit is known but not its quantity, as the reader's unit system shows it. */
export function showStored(value: number, unit: string, system: UnitSystem): string {
  // Counts and ratios share the unit 1; either reads well without trailing zeros.
  if (unit === '1') return plainNumber(value);
  const kind = kinds.find((each) => quantities[each].unit === unit);
  return kind ? format(kind, value, system) : `${value} ${unit}`.trim();
}

/** A kind that travelled as a plain text, as this build knows it. */
export const knownKind = (kind: string): QuantityKind | null => kinds.find((each) => each === kind) ?? null;
