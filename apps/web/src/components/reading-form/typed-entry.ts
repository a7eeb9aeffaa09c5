import { parseEntry, type QuantityKind, type UnitSystem } from '@countercheck/measurement';
import { editableText, enteredUnit } from '../../lib/units/entry-text.ts';

/** A number as a person typed it, and the unit system that was switched on while typing. */
export interface TypedEntry {
  text: string;
  system: UnitSystem;
}

/** What the input shows after the switch was turned: the typed text in its own system, converted in the other. */
export function shownText(kind: QuantityKind, entry: TypedEntry | undefined, system: UnitSystem): string {
  if (!entry || entry.system === system) return entry?.text ?? '';
  const parsed = parseEntry(kind, entry.text, entry.system);
  return parsed.problem === null ? editableText(kind, parsed.value, system) : entry.text;
}

/** A stored number as an entry: as it was typed when that is known, else in the unit system shown now. */
export function entryFromStored(
  kind: QuantityKind,
  value: number,
  entered: { text: string; unit: string } | undefined,
  system: UnitSystem,
): TypedEntry {
  for (const known of [system, 'us', 'si'] as const) {
    if (entered && enteredUnit(kind, known) === entered.unit) return { text: entered.text, system: known };
  }
  return { text: editableText(kind, value, system), system };
}

/** The other sign, for keypads that have no minus. */
export function turnSign(entry: TypedEntry): TypedEntry {
  const text = entry.text.trim();
  return { ...entry, text: /^[-−]/.test(text) ? text.slice(1) : `-${text.replace(/^\+/, '')}` };
}
