import type { Reading } from '@countercheck/contracts';
import type { TestDefinition, UnitSystem } from '@countercheck/measurement';
import {
  emptyForm,
  entryFromStored,
  newId,
  type EnteredForm,
  type NewId,
} from '../../../components/reading-form/index.ts';
import { averagedSeconds } from '../../../lib/averaged.ts';

/** A test’s form with what else is recorded with a reading. */
export interface Draft extends EnteredForm {
  instrumentId: string | null;
  note: string;
  supersedeReason: string;
  /** made with the first keystroke, so that a repeated save stores once */
  id: string;
  /** the time of averaging that runs, and the field it is for; empty = the whole reading */
  timer: { path: string; seconds: number; until: number } | null;
  /** over how many seconds the numbers were averaged, by the path of the field */
  timed: Record<string, number>;
  /** when it was first sent; a repeated save must be the same to the second */
  takenAt: string | null;
}

export function emptyDraft(test: TestDefinition, id: NewId = newId): Draft {
  return {
    ...emptyForm(test, id),
    id: id(),
    takenAt: null,
    instrumentId: null,
    note: '',
    supersedeReason: '',
    timer: null,
    timed: {},
  };
}

/** What was timed, with a time that is over by now although nobody looked. */
export function timedBy({ timer, timed }: Pick<Draft, 'timer' | 'timed'>, now: number): Draft['timed'] {
  return timer && timer.until <= now ? { ...timed, [timer.path]: timer.seconds } : timed;
}

/** What a form can be filled with: a reading that is kept, or one that was on its way. */
export type Refillable = Pick<Reading, 'raw' | 'entered' | 'conditions'> & {
  instrument: Pick<NonNullable<Reading['instrument']>, 'id'> | null;
};

/** The form filled with a reading that is to be corrected, each number as it was typed then. */
export function draftFrom(
  reading: Refillable,
  test: TestDefinition,
  system: UnitSystem,
  id: NewId = newId,
): Draft {
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
    timer: null,
    timed: averagedSeconds(reading.conditions),
  };
}

/** Changed content is another reading: what may have arrived unanswered keeps its own id. */
export function changed(draft: Draft, changes: Partial<Draft>, id: NewId = newId): Draft {
  const next = { ...draft, ...changes };
  return draft.takenAt === null ? next : { ...next, id: id(), takenAt: null };
}
