import type { InstrumentFacts } from '../types.ts';

/** The checked numbers and choices of a reading or of one of its rows, in stored units. */
export interface EntryPart {
  label: string;
  /** what goes before `values.` in the path of a problem: empty, or `rows.2.` */
  prefix: string;
  values: Readonly<Record<string, number>>;
  choices: Readonly<Record<string, string>>;
}

/** A reading whose every number is finite, known and plausible, with its instrument. */
export interface Entry extends EntryPart {
  rows: EntryPart[];
  instrument: InstrumentFacts | null;
}

/**
 * The number entered under a key, in the stored unit of its field, or null when it was left out.
 * Never throws.
 */
export function optional(part: EntryPart, key: string): number | null {
  return part.values[key] ?? null;
}

/**
 * The number entered under the key of a required field, in its stored unit.
 * @throws RangeError when the definition did not require the key: a mistake in the definition, not in the
 * reading, because a reading without a required value never gets this far.
 */
export function required(part: EntryPart, key: string): number {
  const value = part.values[key];
  if (value === undefined) throw new RangeError(`the test did not require ${part.prefix}values.${key}`);
  return value;
}

/** The path of a value in a problem, e.g. `rows.1.values.flow`. */
export function valuePath(part: EntryPart, key: string): string {
  return `${part.prefix}values.${key}`;
}

/** The path of a choice in a problem, e.g. `rows.1.choices.range`. */
export function choicePath(part: EntryPart, key: string): string {
  return `${part.prefix}choices.${key}`;
}
