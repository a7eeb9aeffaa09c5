import { plainNumber, quantities, type QuantityKind } from '@countercheck/measurement';
import { Quantity } from '../../components/fields/index.ts';

const kinds = Object.keys(quantities) as QuantityKind[];

/** A stored number of which the file knows the unit, in the units shown. */
export function StoredFigure({ value, unit }: { value: number | null; unit: string | null }) {
  // Counts and ratios share the unit 1; either reads well without trailing zeros.
  if (unit === '1' && value !== null) return <>{plainNumber(value)}</>;
  const kind = kinds.find((each) => quantities[each].unit === unit);
  if (kind) return <Quantity kind={kind} value={value} absent="not reported" />;
  return <>{value === null ? 'not reported' : `${value} ${unit ?? ''}`}</>;
}
