import { format, type UnitSystem } from '@countercheck/measurement';
import type { Comparison } from '@countercheck/rules';

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
