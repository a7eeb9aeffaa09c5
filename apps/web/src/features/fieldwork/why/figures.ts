import {
  format,
  plainNumber,
  quantities,
  type QuantityKind,
  type UnitSystem,
} from '@countercheck/measurement';
import type { Comparison } from '@countercheck/rules';

const kinds = Object.keys(quantities) as QuantityKind[];

/** A stored number whose unit is known but not its quantity, as the reader's unit system shows it. */
export function showStored(value: number, unit: string, system: UnitSystem): string {
  // Counts and ratios share the unit 1; either reads well without trailing zeros.
  if (unit === '1') return plainNumber(value);
  const kind = kinds.find((each) => quantities[each].unit === unit);
  return kind ? format(kind, value, system) : `${value} ${unit}`.trim();
}

/** A comparison's numbers in the reader's units: what was found and what would do. */
export function comparisonFigures(comparison: Comparison, system: UnitSystem): string | null {
  const { value, low, high, quantity } = comparison;
  if (value === null || (low === null && high === null)) return null;
  const say = (bound: number) => format(quantity, bound, system);
  const bounds =
    low !== null && high !== null
      ? `between ${say(low)} and ${say(high)}`
      : low !== null
        ? `at least ${say(low)}`
        : `at most ${say(high ?? 0)}`;
  return `${say(value)}; ${bounds} will do`;
}
