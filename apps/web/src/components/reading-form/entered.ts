import {
  parseEntry,
  type QuantityKind,
  type RawReading,
  type TestDefinition,
} from '@countercheck/measurement';
import { enteredUnit } from '../../lib/units/entry-text.ts';
import type { TypedEntry } from './typed-entry.ts';

/** One row or the top of a form: numbers as typed, choices as chosen. */
export interface EnteredPart {
  typed: Record<string, TypedEntry>;
  choices: Record<string, string>;
}
export interface EnteredRow extends EnteredPart {
  /** keeps the row's inputs together while rows are taken out above it */
  key: string;
  label: string;
}
/** A test's form as it was filled in so far. */
export interface EnteredForm extends EnteredPart {
  rows: EnteredRow[];
  confirmations: Record<string, boolean>;
}

export interface ReadForm {
  raw: RawReading;
  entered: Record<string, { text: string; unit: string }>;
  /** entries that are not numbers, by path */
  unreadable: Record<string, string>;
}

type Asked = Pick<TestDefinition, 'fields' | 'rows'>;
export type NewId = () => string;
export const newId: NewId = () => crypto.randomUUID();

export function emptyRow(label: string, id: NewId = newId): EnteredRow {
  return { key: id(), label, typed: {}, choices: {} };
}

export function emptyForm(test: Pick<TestDefinition, 'rows'>, id: NewId = newId): EnteredForm {
  const rows = Array.from({ length: test.rows?.min ?? 0 }, (_, i) =>
    emptyRow(`${test.rows?.rowLabel ?? ''} ${i + 1}`, id),
  );
  return { typed: {}, choices: {}, rows, confirmations: {} };
}

/** What the form comes to: stored units, what was typed, and what cannot be read as a number. */
export function readForm(test: Asked, form: EnteredForm): ReadForm {
  const entered: ReadForm['entered'] = {};
  const unreadable: ReadForm['unreadable'] = {};
  const numbers = (fields: { key: string; quantity: QuantityKind }[], part: EnteredPart, prefix: string) => {
    const values: Record<string, number> = {};
    for (const { key, quantity } of fields) {
      const entry = part.typed[key];
      if (!entry || entry.text.trim() === '') continue;
      const path = `${prefix}values.${key}`;
      const parsed = parseEntry(quantity, entry.text, entry.system);
      if (parsed.problem !== null) unreadable[path] = parsed.problem;
      else {
        values[key] = parsed.value;
        entered[path] = { text: entry.text.trim(), unit: enteredUnit(quantity, entry.system) };
      }
    }
    return values;
  };
  const chosen = (part: EnteredPart) =>
    Object.fromEntries(Object.entries(part.choices).filter(([, value]) => value !== ''));
  const raw: RawReading = {
    values: numbers(test.fields, form, ''),
    choices: chosen(form),
    rows: form.rows.map((row, i) => ({
      label: row.label.trim() || `${test.rows?.rowLabel ?? ''} ${i + 1}`.trim(),
      values: numbers(test.rows?.fields ?? [], row, `rows.${i}.`),
      choices: chosen(row),
    })),
    confirmations: Object.fromEntries(Object.entries(form.confirmations).filter(([, on]) => on)),
  };
  return { raw, entered, unreadable };
}

/** The raw reading as it would be with everything set up and ticked, to look at a result before that. */
export function allConfirmed(test: Pick<TestDefinition, 'confirmations'>, raw: RawReading): RawReading {
  return { ...raw, confirmations: Object.fromEntries(test.confirmations.map(({ key }) => [key, true])) };
}

/** Whether anything was put in yet; an untouched form shows no problems. */
export function hasEntries(form: EnteredForm): boolean {
  const some = (part: EnteredPart) =>
    Object.values(part.typed).some(({ text }) => text.trim() !== '') ||
    Object.values(part.choices).some((value) => value !== '');
  return some(form) || form.rows.some(some) || Object.values(form.confirmations).some(Boolean);
}
