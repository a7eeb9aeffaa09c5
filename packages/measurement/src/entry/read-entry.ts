import type {
  ChoiceDefinition,
  FieldDefinition,
  InstrumentFacts,
  Problem,
  RawReading,
  TestDefinition,
} from '../types.ts';
import { fieldProblem } from './field-problem.ts';
import { choiceProblem } from './choice-problem.ts';
import { instrumentProblem, isInstrument } from './instrument-problem.ts';
import type { Entry, EntryPart } from './part.ts';
import { bag, list } from './plain.ts';

export type ReadEntry = { ok: true; entry: Entry } | { ok: false; problems: Problem[] };

/** The parts of a test's definition that say what may be entered. */
export type EntryRules = Pick<
  TestDefinition,
  'fields' | 'choices' | 'rows' | 'confirmations' | 'instrumentKinds' | 'instrumentRequired'
>;

/**
 * Checks a raw reading against a test's definition: every number finite and plausible, every choice one of
 * those offered, everything required there, nothing unknown, every confirmation ticked, and the instrument
 * of the right kind. All numbers are in the stored units of their fields.
 * Gives the checked entry, or all the problems found (at least one). Never throws, whatever `raw` is.
 */
export function readEntry(rules: EntryRules, raw: RawReading, given: InstrumentFacts | null): ReadEntry {
  const problems: Problem[] = [];
  const found = instrumentProblem(rules, given);
  const instrument = isInstrument(given) ? given : null;
  if (found) problems.push(found);
  const top = readPart(rules.fields, rules.choices, raw, '', '', instrument, problems);
  const rows = readRows(rules, raw, instrument, problems);
  const ticked = bag(bag(raw)['confirmations']);
  for (const { key, label } of rules.confirmations) {
    if (Object.hasOwn(ticked, key) && ticked[key] === true) continue;
    const message = `Not confirmed: ${label}. Set it up, then tick it; the reading does not count without it.`;
    problems.push({ path: `confirmations.${key}`, code: 'not-confirmed', message });
  }
  return problems.length > 0 ? { ok: false, problems } : { ok: true, entry: { ...top, rows, instrument } };
}

function readRows(
  rules: EntryRules,
  raw: RawReading,
  instrument: InstrumentFacts | null,
  problems: Problem[],
): EntryPart[] {
  const rows = list(bag(raw)['rows']);
  if (!rules.rows) {
    if (rows.length > 0) {
      problems.push({
        path: 'rows',
        code: 'unknown-rows',
        message: 'This test has no rows. Take the rows out.',
      });
    }
    return [];
  }
  const { min, max, rowLabel, fields, choices } = rules.rows;
  if (rows.length < min || rows.length > max) {
    const message = `There are ${rows.length} rows (${rowLabel}); enter at least ${min} and at most ${max}.`;
    problems.push({ path: 'rows', code: rows.length < min ? 'too-few-rows' : 'too-many-rows', message });
    return [];
  }
  return rows.map((row, i) => {
    const entered = bag(row)['label'];
    const label =
      typeof entered === 'string' && entered.trim() !== '' ? entered.trim() : `${rowLabel} ${i + 1}`;
    return readPart(fields, choices, row, label, `rows.${i}.`, instrument, problems);
  });
}

function readPart(
  fields: FieldDefinition[],
  choices: ChoiceDefinition[],
  raw: unknown,
  label: string,
  prefix: string,
  instrument: InstrumentFacts | null,
  problems: Problem[],
): EntryPart {
  const values = bag(bag(raw)['values']);
  const chosen = bag(bag(raw)['choices']);
  const part = { label, prefix, values: {} as Record<string, number>, choices: {} as Record<string, string> };
  for (const field of fields) {
    const value = Object.hasOwn(values, field.key) ? values[field.key] : undefined;
    const found = fieldProblem(field, value, `${prefix}values.${field.key}`);
    if (found) problems.push(found);
    else if (typeof value === 'number') part.values[field.key] = value;
  }
  for (const choice of choices) {
    const value = Object.hasOwn(chosen, choice.key) ? chosen[choice.key] : undefined;
    const found = choiceProblem(choice, value, `${prefix}choices.${choice.key}`, instrument);
    if (found) problems.push(found);
    else if (typeof value === 'string' && value !== '') part.choices[choice.key] = value;
  }
  refuseUnknown(values, fields, `${prefix}values`, problems);
  refuseUnknown(chosen, choices, `${prefix}choices`, problems);
  return part;
}

// A misspelt key would otherwise look like a value that was left out.
function refuseUnknown(given: object, known: { key: string }[], path: string, problems: Problem[]): void {
  const keys = new Set(known.map(({ key }) => key));
  for (const key of Object.keys(given)) {
    if (keys.has(key)) continue;
    const message = `This test does not know "${key}". It knows: ${[...keys].join(', ') || 'none'}.`;
    problems.push({ path: `${path}.${key}`, code: 'unknown-key', message });
  }
}
