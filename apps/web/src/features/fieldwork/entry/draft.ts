import type { QuantityKind, TestDefinition, UnitSystem } from '@countercheck/measurement';
import { parseEntry } from '@countercheck/measurement';
import type { RawReading } from '@countercheck/measurement';
import type { Reading } from '@countercheck/contracts';
import { enteredUnit } from '../../../lib/units/entry-text.ts';
import { entryFromStored, type TypedEntry } from './typed-entry.ts';

/** One row or the top of a form: numbers as typed, choices as chosen. */
export interface DraftPart {
  typed: Record<string, TypedEntry>;
  choices: Record<string, string>;
}
export interface DraftRow extends DraftPart {
  /** keeps the row's inputs together while rows are taken out above it */
  key: string;
  label: string;
}
export interface Draft extends DraftPart {
  rows: DraftRow[];
  confirmations: Record<string, boolean>;
  instrumentId: string | null;
  note: string;
  supersedeReason: string;
  /** made with the first keystroke, so that a repeated save stores once */
  id: string;
  /** when it was first sent; a repeated save must be the same to the second */
  takenAt: string | null;
}

export interface DraftReading {
  raw: RawReading;
  entered: Record<string, { text: string; unit: string }>;
  /** entries that are not numbers, by path */
  unreadable: Record<string, string>;
}

type Id = () => string;
const newId: Id = () => crypto.randomUUID();

export function emptyRow(label: string, id: Id = newId): DraftRow {
  return { key: id(), label, typed: {}, choices: {} };
}

export function emptyDraft(test: TestDefinition, id: Id = newId): Draft {
  const rows = Array.from({ length: test.rows?.min ?? 0 }, (_, i) =>
    emptyRow(`${test.rows?.rowLabel ?? ''} ${i + 1}`, id),
  );
  return {
    id: id(),
    takenAt: null,
    typed: {},
    choices: {},
    rows,
    confirmations: {},
    instrumentId: null,
    note: '',
    supersedeReason: '',
  };
}

/** The form filled with a reading that is to be corrected, each number as it was typed then. */
export function draftFrom(reading: Reading, test: TestDefinition, system: UnitSystem, id: Id = newId): Draft {
  const typed = (fields: TestDefinition['fields'], values: Record<string, number>, prefix: string) =>
    Object.fromEntries(
      fields.flatMap(({ key, quantity }) => {
        const value = values[key];
        if (value === undefined) return [];
        return [[key, entryFromStored(quantity, value, reading.entered[`${prefix}values.${key}`], system)]];
      }),
    );
  const note = reading.conditions['note'];
  return {
    id: id(),
    takenAt: null,
    typed: typed(test.fields, reading.raw.values, ''),
    choices: { ...reading.raw.choices },
    rows: reading.raw.rows.map((row, i) => ({
      key: id(),
      label: row.label,
      typed: typed(test.rows?.fields ?? [], row.values, `rows.${i}.`),
      choices: { ...row.choices },
    })),
    confirmations: { ...reading.raw.confirmations },
    instrumentId: reading.instrument?.id ?? null,
    note: typeof note === 'string' ? note : '',
    supersedeReason: '',
  };
}

/** What the form comes to: stored units, what was typed, and what cannot be read as a number. */
export function readDraft(test: TestDefinition, draft: Draft): DraftReading {
  const entered: DraftReading['entered'] = {};
  const unreadable: DraftReading['unreadable'] = {};
  const numbers = (fields: { key: string; quantity: QuantityKind }[], part: DraftPart, prefix: string) => {
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
  const chosen = (part: DraftPart) =>
    Object.fromEntries(Object.entries(part.choices).filter(([, value]) => value !== ''));
  const raw: RawReading = {
    values: numbers(test.fields, draft, ''),
    choices: chosen(draft),
    rows: draft.rows.map((row, i) => ({
      label: row.label.trim() || `${test.rows?.rowLabel ?? ''} ${i + 1}`.trim(),
      values: numbers(test.rows?.fields ?? [], row, `rows.${i}.`),
      choices: chosen(row),
    })),
    confirmations: Object.fromEntries(Object.entries(draft.confirmations).filter(([, on]) => on)),
  };
  return { raw, entered, unreadable };
}

/** Changed content is another reading: what may have arrived unanswered keeps its own id. */
export function changed(draft: Draft, changes: Partial<Draft>, id: Id = newId): Draft {
  const next = { ...draft, ...changes };
  return draft.takenAt === null ? next : { ...next, id: id(), takenAt: null };
}

/** Whether anything was put in yet; an untouched form shows no problems. */
export function hasEntries(draft: Draft): boolean {
  const some = (part: DraftPart) =>
    Object.values(part.typed).some(({ text }) => text.trim() !== '') ||
    Object.values(part.choices).some((value) => value !== '');
  return some(draft) || draft.rows.some(some) || Object.values(draft.confirmations).some(Boolean);
}
