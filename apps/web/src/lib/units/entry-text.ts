import {
  displayUnit,
  parseEntry,
  toDisplay,
  type QuantityKind,
  type UnitSystem,
} from '@countercheck/measurement';

/** What an entry field yields: a number in the stored unit, nothing, or text that is no number. */
export interface Entry {
  /** null when empty; NaN when what was typed is no number, so that no schema takes it for "left out" */
  value: number | null;
  problem: string | null;
}

export function readText(kind: QuantityKind, text: string, system: UnitSystem): Entry {
  if (text.trim() === '') return { value: null, problem: null };
  const parsed = parseEntry(kind, text, system);
  return parsed.problem === null
    ? { value: parsed.value, problem: null }
    : { value: Number.NaN, problem: parsed.problem };
}

/** A stored value as text to edit: up to six significant digits, so that 20 m³ does not come back as 19.9999. */
export function editableText(kind: QuantityKind, value: number | null, system: UnitSystem): string {
  if (value === null || !Number.isFinite(value)) return '';
  const shown = toDisplay(kind, value, system);
  return String(system === 'us' ? shown : Number(shown.toPrecision(6)));
}

/** The unit typed in, for records that keep the text as entered. */
export const enteredUnit = (kind: QuantityKind, system: UnitSystem): string => displayUnit(kind, system);
