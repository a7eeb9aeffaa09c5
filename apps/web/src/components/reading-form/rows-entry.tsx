import { Button, TextInput } from '@mantine/core';
import { IconPlus, IconTrash } from '@tabler/icons-react';
import type { InstrumentFacts, RowsDefinition } from '@countercheck/measurement';
import { emptyRow, type EnteredRow } from './entered.ts';
import { PartFields } from './part-fields.tsx';
import './reading-form.css';

interface Props {
  definition: RowsDefinition;
  rows: readonly EnteredRow[];
  problems: Record<string, string>;
  instrument: InstrumentFacts | null;
  onChange(rows: EnteredRow[]): void;
}

/** Terminals, inlets, openings or points: as many as the house has. */
export function RowsEntry({ definition, rows, problems, instrument, onChange }: Props) {
  const { label, rowLabel, min, max, fields, choices } = definition;
  const replace = (key: string, changes: Partial<EnteredRow>) =>
    onChange(rows.map((row) => (row.key === key ? { ...row, ...changes } : row)));
  return (
    <fieldset className="reading-rows">
      <legend>{label}</legend>
      {problems['rows'] && <p className="field-problem">{problems['rows']}</p>}
      {rows.map((row, i) => (
        <div
          key={row.key}
          role="group"
          aria-label={row.label || `${rowLabel} ${i + 1}`}
          className="reading-row"
        >
          <div className="reading-row-head">
            <TextInput
              size="md"
              label={`${rowLabel} ${i + 1}: name`}
              value={row.label}
              maxLength={80}
              onChange={(event) => replace(row.key, { label: event.currentTarget.value })}
            />
            {rows.length > min && (
              <Button
                size="md"
                variant="default"
                leftSection={<IconTrash size={18} aria-hidden="true" />}
                aria-label={`Take out ${row.label || `${rowLabel} ${i + 1}`}`}
                onClick={() => onChange(rows.filter(({ key }) => key !== row.key))}
              >
                Take out
              </Button>
            )}
          </div>
          <PartFields
            fields={fields}
            choices={choices}
            part={row}
            prefix={`rows.${i}.`}
            problems={problems}
            instrument={instrument}
            onChange={(part) => replace(row.key, part)}
          />
        </div>
      ))}
      {rows.length < max && (
        <Button
          size="lg"
          variant="default"
          fullWidth
          leftSection={<IconPlus size={20} aria-hidden="true" />}
          onClick={() => onChange([...rows, nextRow(rows, rowLabel)])}
        >
          Add {rowLabel.toLowerCase()}
        </Button>
      )}
    </fieldset>
  );
}

/** A further row keeps the choices of the one before: the same ring, the same kind of opening. */
export function nextRow(rows: readonly EnteredRow[], rowLabel: string): EnteredRow {
  const last = rows.at(-1);
  return { ...emptyRow(`${rowLabel} ${rows.length + 1}`), choices: { ...last?.choices } };
}
