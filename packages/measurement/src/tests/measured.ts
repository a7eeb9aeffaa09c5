import { quantities, type QuantityKind } from '../quantities.ts';
import type { MeasuredValue } from '../types.ts';

/** A result key that a test can give. */
export interface Given {
  key: string;
  label: string;
  quantity: QuantityKind;
}

/**
 * A measured value under a result key, in the stored unit of its quantity.
 * @param value finite, in that unit @param standardUncertainty in that unit, or null when not known
 */
export function measured(
  given: Given,
  value: number,
  standardUncertainty: number | null = null,
): MeasuredValue {
  // Adding zero turns −0, which a page would show as "-0", into 0.
  return { ...given, value: value + 0, unit: quantities[given.quantity].unit, standardUncertainty };
}
