import { format, type QuantityKind } from '@countercheck/measurement';
import { useUnitSystem } from '../../lib/units/unit-system.ts';

interface QuantityProps {
  kind: QuantityKind;
  /** in the stored unit */
  value: number | null | undefined;
  absent?: string;
}

/** A stored value in the units the reader has chosen. */
export function Quantity({ kind, value, absent = '–' }: QuantityProps) {
  const system = useUnitSystem();
  return (
    <span className="figure">
      {value === null || value === undefined ? absent : format(kind, value, system)}
    </span>
  );
}
