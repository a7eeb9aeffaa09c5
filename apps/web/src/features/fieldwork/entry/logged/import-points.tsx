import { Button, FileButton, Group } from '@mantine/core';
import type { RowsDefinition, TestKey, UnitSystem } from '@countercheck/measurement';
import { parse } from 'csv-parse/browser/esm/sync';
import { useRef, useState } from 'react';
import { Choice } from '../../../../components/fields/index.ts';
import type { EnteredRow } from '../../../../components/reading-form/index.ts';
import { useUnitSystem } from '../../../../lib/units/unit-system.ts';
import {
  delimiterOf,
  guessMapping,
  logIn,
  rowsFrom,
  signature,
  unitWords,
  type LoggedFile,
  type Mapping,
} from './points.ts';

interface Props {
  test: TestKey;
  definition: RowsDefinition;
  /** how many rows hold something already; the file's take their place */
  filled: number;
  onRows(rows: EnteredRow[]): void;
}
interface Remembered {
  mapping: Mapping;
  system: UnitSystem;
}

const nameOf = (test: TestKey, columns: readonly string[]) => `logged-columns:${test}:${signature(columns)}`;

function remembered(test: TestKey, columns: readonly string[]): Remembered | null {
  try {
    return JSON.parse(localStorage.getItem(nameOf(test, columns)) ?? 'null') as Remembered | null;
  } catch {
    return null;
  }
}

/** Reads a file of commas, semicolons or tabs; null when it is none. */
async function read(file: File): Promise<LoggedFile | null> {
  const text = await file.text();
  const delimiter = delimiterOf(text);
  try {
    // Empty lines are kept, so that a line is named by its place in the file.
    const lines = parse(text, { delimiter, bom: true, relax_column_count: true, trim: true });
    while (lines.at(-1)?.every((cell) => cell === '')) lines.pop();
    return logIn(lines, delimiter);
  } catch {
    return null;
  }
}

/** Takes the points that a manometer has logged: which column is what is asked once for files of one kind. */
export default function ImportPoints({ test, definition, filled, onRows }: Props) {
  // The same file can be chosen again, after it was corrected.
  const reset = useRef<() => void>(null);
  const shown = useUnitSystem();
  const [file, setFile] = useState<LoggedFile | null>(null);
  const [use, setUse] = useState<Remembered>({ mapping: {}, system: shown });
  const [said, setSaid] = useState('');

  async function open(chosen: File | null) {
    reset.current?.();
    if (!chosen) return;
    const logged = await read(chosen);
    setFile(logged);
    setSaid(
      logged
        ? ''
        : 'This file has no lines of numbers under a line of names. Save the log as CSV and try again.',
    );
    if (logged)
      setUse(
        remembered(test, logged.columns) ?? {
          mapping: guessMapping(logged.columns, definition.fields),
          system: shown,
        },
      );
  }

  function take() {
    if (!file) return;
    const { rows, skipped } = rowsFrom(file, definition, use.mapping, use.system);
    const left = skipped.length > 0 ? ` Lines without numbers were left out: ${skipped.join(', ')}.` : '';
    if (rows.length === 0) return setSaid(`No line has a number in every column that is needed.${left}`);
    if (rows.length > definition.max)
      return setSaid(
        `The file has ${rows.length} points; at most ${definition.max} can be taken. Cut the log.`,
      );
    try {
      localStorage.setItem(nameOf(test, file.columns), JSON.stringify(use));
    } catch {
      // Without a place to remember it the columns are asked for again.
    }
    onRows(rows);
    setFile(null);
    setSaid(`${rows.length} points were taken from the file.${left}`);
  }

  const columns = (file?.columns ?? []).map((label, i) => ({
    value: String(i),
    label: label || `Column ${i + 1}`,
  }));
  return (
    <div className="stack logged" role="group" aria-label="Logged points">
      <FileButton
        resetRef={reset}
        accept=".csv,.txt,text/csv,text/plain"
        onChange={(chosen) => void open(chosen)}
      >
        {(props) => (
          <Button {...props} size="lg" variant="default">
            Load logged points
          </Button>
        )}
      </FileButton>
      {said && <p role="status">{said}</p>}
      {file && (
        <>
          {definition.fields.map((field) => (
            <Choice
              key={field.key}
              size="lg"
              label={`${field.label}, ${unitWords(field, use.system)}`}
              none={field.required ? 'Choose the column…' : 'Not in the file'}
              value={use.mapping[field.key] === undefined ? null : String(use.mapping[field.key])}
              options={columns}
              onChange={(value) => {
                const { [field.key]: _, ...others } = use.mapping;
                setUse({
                  ...use,
                  mapping: value === null ? others : { ...others, [field.key]: Number(value) },
                });
              }}
            />
          ))}
          <Choice
            size="lg"
            label="Units of the file"
            value={use.system}
            options={[
              { value: 'us', label: 'US units' },
              { value: 'si', label: 'SI units' },
            ]}
            onChange={(value) => setUse({ ...use, system: value === 'si' ? 'si' : 'us' })}
          />
          <Group gap="xs" grow>
            <Button size="lg" onClick={take}>
              Take {file.rows.length} lines{filled > 0 && ` in place of the ${filled} typed`}
            </Button>
            <Button size="lg" variant="default" onClick={() => setFile(null)}>
              Leave it
            </Button>
          </Group>
        </>
      )}
    </div>
  );
}
