import { quantities, toDisplay, type QuantityKind } from '@countercheck/measurement';
import { useUnitSystem } from '../../lib/units/unit-system.ts';
import { doubtText } from '../../lib/units/doubt-text.ts';

interface DoubtProps {
  kind: QuantityKind;
  /** in the stored unit; null when the instrument's accuracy is not known */
  value: number | null;
}

/** The instrument's share of doubt beside a result, in the result's unit. */
export function Doubt({ kind, value }: DoubtProps) {
  const system = useUnitSystem();
  // A difference of temperatures does not convert like a temperature.
  if (value === null || kind === 'temperature') return null;
  return (
    <span className="doubt" title="Standard uncertainty by the instrument's stated accuracy">
      {' '}
      ± {doubtText(toDisplay(kind, value, system), quantities[kind][system].decimals)}
    </span>
  );
}
