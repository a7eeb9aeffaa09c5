import type { ChoiceDefinition, FieldDefinition, InstrumentFacts } from '@countercheck/measurement';
import { ChoiceField } from './choice-field.tsx';
import type { EnteredPart } from './entered.ts';
import { NumberField } from './number-field.tsx';
import './reading-form.css';

interface Props {
  fields: readonly FieldDefinition[];
  choices: readonly ChoiceDefinition[];
  part: EnteredPart;
  /** empty, or `rows.2.` */
  prefix: string;
  problems: Record<string, string>;
  instrument: InstrumentFacts | null;
  onChange(part: EnteredPart): void;
}

/** The choices and numbers of a form, or of one of its rows. */
export function PartFields({ fields, choices, part, prefix, problems, instrument, onChange }: Props) {
  return (
    <>
      {choices.map((choice) => (
        <ChoiceField
          key={choice.key}
          choice={choice}
          instrument={instrument}
          value={part.choices[choice.key] ?? ''}
          problem={problems[`${prefix}choices.${choice.key}`]}
          onChange={(value) => onChange({ ...part, choices: { ...part.choices, [choice.key]: value } })}
        />
      ))}
      {fields.map((field) => (
        <NumberField
          key={field.key}
          field={field}
          entry={part.typed[field.key]}
          problem={problems[`${prefix}values.${field.key}`]}
          onChange={(entry) => onChange({ ...part, typed: { ...part.typed, [field.key]: entry } })}
        />
      ))}
    </>
  );
}
