import { displayUnit, format, parseEntry, quantities } from '@countercheck/measurement';
import type { QuantityKind, UnitSystem } from '@countercheck/measurement';

/** A number as a person typed it, and the unit system that was switched on while typing. */
export interface TypedEntry {
  text: string;
  system: UnitSystem;
}

/** What the input shows after the switch was turned: the typed text in its own system, converted in the other. */
export function shownText(kind: QuantityKind, entry: TypedEntry | undefined, system: UnitSystem): string {
  if (!entry || entry.system === system) return entry?.text ?? '';
  const parsed = parseEntry(kind, entry.text, entry.system);
  return parsed.problem === null ? bareNumber(kind, parsed.value, system) : entry.text;
}

/** A stored number as an entry: as it was typed when that is known, else in the unit system shown now. */
export function entryFromStored(
  kind: QuantityKind,
  value: number,
  entered: { text: string; unit: string } | undefined,
  system: UnitSystem,
): TypedEntry {
  for (const known of ['us', 'si'] as const) {
    if (entered && displayUnit(kind, known) === entered.unit) return { text: entered.text, system: known };
  }
  return { text: bareNumber(kind, value, system), system };
}

function bareNumber(kind: QuantityKind, value: number, system: UnitSystem): string {
  const { label } = quantities[kind][system];
  const shown = format(kind, value, system);
  return label === '' ? shown : shown.slice(0, -label.length - 1);
}
