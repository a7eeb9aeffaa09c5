import { showStored } from '../../lib/units/show-stored.ts';
import { useUnitSystem } from '../../lib/units/unit-system.ts';

/** A stored number of which the file knows the unit, in the units shown. */
export function StoredFigure({ value, unit }: { value: number | null; unit: string | null }) {
  const system = useUnitSystem();
  return (
    <span className="figure">{value === null ? 'not reported' : showStored(value, unit ?? '', system)}</span>
  );
}
