import { quantities, type QuantityKind } from '../quantities.ts';
import type { MeasuredValue } from '../types.ts';
import { statedUncertainty } from '../uncertainty/coverage.ts';

/** A result key that a test can give. */
export interface Given {
  key: string;
  label: string;
  quantity: QuantityKind;
}

/**
 * A measured value under a result key, in the stored unit of its quantity, with its expanded uncertainty at
 * 95 %: k = 2, or Student's t when the degrees of freedom are known.
 * @param value finite, in that unit @param standardUncertainty in that unit, or null when not known
 * @param degreesOfFreedom of the uncertainty, above zero
 */
export function measured(
  given: Given,
  value: number,
  standardUncertainty: number | null = null,
  degreesOfFreedom = Infinity,
): MeasuredValue {
  return {
    ...given,
    // Adding zero turns −0, which a page would show as "-0", into 0.
    value: value + 0,
    unit: quantities[given.quantity].unit,
    ...statedUncertainty(standardUncertainty, degreesOfFreedom),
  };
}
