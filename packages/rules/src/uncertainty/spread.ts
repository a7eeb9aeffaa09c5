/** How uncertain a figure is, in its own unit: standard uncertainty, and the expanded one at 95 %. */
export interface Spread {
  readonly standard: number;
  readonly expanded: number;
}

/** A figure taken as given: a limit's constant, a floor area, a designed rate. */
export const exact: Spread = { standard: 0, expanded: 0 };

/** k of an expanded uncertainty whose degrees of freedom are not known, about 95 % (JCGM 100, 6.3.3, from memory). */
const coverage = 2;

/**
 * The spread of a figure with a known standard uncertainty, in the figure's unit.
 * @param expanded from the measurement when its degrees of freedom gave another factor than 2
 * Null when the standard uncertainty is null, negative or not finite. Never throws.
 */
export function spreadOf(standard: number | null | undefined, expanded?: number | null): Spread | null {
  if (standard === null || standard === undefined || !(standard >= 0 && standard < Infinity)) return null;
  const usable = typeof expanded === 'number' && expanded >= 0 && expanded < Infinity;
  return { standard, expanded: usable ? expanded : coverage * standard };
}

/**
 * The spread of value − factor × other for independent figures: root of the sum of squares, u² = u(value)² +
 * (factor · u(other))² (JCGM 100, 5.1.2, from memory). Expanded parts combine in the same way, which is exact
 * where both have one coverage factor and where one of them is exact. Null when either is not known.
 */
export function combine(value: Spread | null, other: Spread | null, factor: number): Spread | null {
  if (value === null || other === null) return null;
  if (other.standard === 0 && other.expanded === 0) return value;
  const f = factor * factor;
  return {
    standard: Math.sqrt(value.standard * value.standard + f * other.standard * other.standard),
    expanded: Math.sqrt(value.expanded * value.expanded + f * other.expanded * other.expanded),
  };
}
