import {
  quantities,
  type ChoiceDefinition,
  type FieldDefinition,
  type InstrumentFacts,
  type TestDefinition,
  type UnitSystem,
} from '@countercheck/measurement';
import {
  nextRow,
  shownText,
  type EnteredRow,
  type TypedEntry,
} from '../../../components/reading-form/index.ts';
import type { Draft } from '../entry/draft.ts';

interface Place {
  /** the path of the field in the reading; one address for what is asked */
  key: string;
  /** of the row it is in; null = of the test itself */
  row: number | null;
  required: boolean;
}

/** One thing that a test asks of the rater, in the order in which it is asked. */
export type Step = Place &
  (
    | { kind: 'set-up' }
    | { kind: 'instrument' }
    | { kind: 'choice'; choice: ChoiceDefinition; options: { value: string; label: string }[] }
    | { kind: 'number'; field: FieldDefinition }
    | { kind: 'name' }
    | { kind: 'note' }
  );

/** Everything that can be entered in a test as it is filled in now. */
export function stepsOf(test: TestDefinition, draft: Draft, instrument: InstrumentFacts | null): Step[] {
  const part = (
    { fields, choices }: { fields: FieldDefinition[]; choices: ChoiceDefinition[] },
    row: number | null,
  ): Step[] => {
    const prefix = row === null ? '' : `rows.${row}.`;
    return [
      ...choices.flatMap((choice): Step[] => {
        const ranges = choice.from === 'instrument-range';
        const options = ranges
          ? (instrument?.ranges ?? []).map(({ range }) => ({ value: range, label: range }))
          : choice.options;
        if (ranges && instrument && options.length === 0 && !choice.required) return [];
        const { key, required } = choice;
        return [{ kind: 'choice', key: `${prefix}choices.${key}`, row, required, choice, options }];
      }),
      ...fields.map((field): Step => {
        const { key, required } = field;
        return { kind: 'number', key: `${prefix}values.${key}`, row, required, field };
      }),
    ];
  };
  const top = { row: null };
  return [
    ...(test.confirmations.length > 0
      ? [{ ...top, kind: 'set-up', key: 'confirmations', required: true } as const]
      : []),
    ...(test.instrumentKinds.length > 0
      ? [{ ...top, kind: 'instrument', key: 'instrument', required: test.instrumentRequired } as const]
      : []),
    ...part(test, null),
    ...draft.rows.flatMap((_, row): Step[] => [
      ...part(test.rows ?? { fields: [], choices: [] }, row),
      { kind: 'name', key: `rows.${row}.label`, row, required: false },
    ]),
    { ...top, kind: 'note', key: 'note', required: false },
  ];
}

const partOf = (draft: Draft, row: number | null) => (row === null ? draft : draft.rows[row]);

/** The number of a step as it was typed, and null for other steps or where nothing was. */
export function typedAt(step: Step, draft: Draft): TypedEntry | undefined {
  return step.kind === 'number' ? partOf(draft, step.row)?.typed[step.field.key] : undefined;
}

/** What is there already, in a few words; empty when nothing is. */
export function stepText(
  step: Step,
  test: TestDefinition,
  draft: Draft,
  instrument: InstrumentFacts | null,
  system: UnitSystem,
): string {
  switch (step.kind) {
    case 'set-up': {
      const ticked = test.confirmations.filter(({ key }) => draft.confirmations[key]).length;
      return `${ticked} of ${test.confirmations.length}`;
    }
    case 'instrument':
      return instrument?.label ?? '';
    case 'choice': {
      const value = partOf(draft, step.row)?.choices[step.choice.key] ?? '';
      return step.options.find((each) => each.value === value)?.label ?? value;
    }
    case 'number': {
      const text = shownText(step.field.quantity, typedAt(step, draft), system).trim();
      return text === '' ? '' : `${text} ${quantities[step.field.quantity][system].label}`.trim();
    }
    case 'name':
      return draft.rows[step.row ?? 0]?.label ?? '';
    case 'note':
      return draft.note.trim();
  }
}

/** What a step is called on its key. */
export function stepLabel(step: Step, test: TestDefinition): string {
  switch (step.kind) {
    case 'set-up':
      return 'Set up';
    case 'instrument':
      return 'Instrument';
    case 'choice':
      return step.choice.label;
    case 'number':
      return step.field.label;
    case 'name':
      return `${test.rows?.rowLabel ?? ''}: name`;
    case 'note':
      return 'Note';
  }
}

export const isFilled = (step: Step, test: TestDefinition, draft: Draft): boolean => {
  if (step.kind === 'set-up') return test.confirmations.every(({ key }) => draft.confirmations[key]);
  if (step.kind === 'instrument') return draft.instrumentId !== null;
  if (step.kind === 'choice') return (partOf(draft, step.row)?.choices[step.choice.key] ?? '') !== '';
  if (step.kind === 'number') return (typedAt(step, draft)?.text ?? '').trim() !== '';
  if (step.kind === 'note') return draft.note.trim() !== '';
  return true;
};

/** Where a test is gone on with: at what is missing first. */
export const whereLeft = 'where-left';

/** How much of what a test needs is there, for a line that stands for all of it. */
export function filledOf(steps: readonly Step[], test: TestDefinition, draft: Draft) {
  const needed = steps.filter(({ required }) => required);
  return { filled: needed.filter((step) => isFilled(step, test, draft)).length, needed: needed.length };
}

/** The rows with one more, and the step that it begins with; null where no more may be added. */
export function oneMoreRow(
  test: TestDefinition,
  draft: Draft,
  instrument: InstrumentFacts | null,
): { rows: EnteredRow[]; begin: string | null } | null {
  if (!test.rows || draft.rows.length >= test.rows.max) return null;
  const rows = [...draft.rows, nextRow(draft.rows, test.rows.rowLabel)];
  const asked = stepsOf(test, { ...draft, rows }, instrument).filter(({ row }) => row === rows.length - 1);
  return { rows, begin: (asked.find(({ kind }) => kind === 'number') ?? asked[0])?.key ?? null };
}

/** The next thing to enter after a step: what is needed and missing, from there on and then from the beginning. */
export function nextStep(
  steps: readonly Step[],
  after: string | null,
  test: TestDefinition,
  draft: Draft,
): Step | null {
  const at = steps.findIndex(({ key }) => key === after);
  const turned = [...steps.slice(at + 1), ...steps.slice(0, at + 1)];
  return turned.find((step) => step.required && step.key !== after && !isFilled(step, test, draft)) ?? null;
}
