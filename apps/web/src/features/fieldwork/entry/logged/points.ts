import { displayUnit, type RowsDefinition, type UnitSystem } from '@countercheck/measurement';
import { emptyRow, type EnteredRow, type NewId } from '../../../../components/reading-form/index.ts';

/** A file of logged points: its first line names the columns. */
export interface LoggedFile {
  columns: string[];
  rows: string[][];
}

/** Which column holds which number of a row, by the row's field; left out = not in the file. */
export type Mapping = Record<string, number>;
type Fields = RowsDefinition['fields'];

const words = (text: string): string[] => text.toLowerCase().match(/[a-z]+/g) ?? [];

/** The first guess: field and column whose names share most words come together first. */
export function guessMapping(columns: readonly string[], fields: Fields): Mapping {
  const pairs = fields.flatMap(({ key, label }) =>
    columns.map((column, index) => {
      const wanted = words(label);
      return { key, index, shared: words(column).filter((word) => wanted.includes(word)).length };
    }),
  );
  const mapping: Mapping = {};
  for (const { key, index, shared } of pairs.toSorted((a, b) => b.shared - a.shared)) {
    const taken = key in mapping || Object.values(mapping).includes(index);
    if (shared > 0 && !taken) mapping[key] = index;
  }
  return mapping;
}

/** What the columns are called, for finding the mapping again that was used for such a file before. */
export const signature = (columns: readonly string[]) => columns.map((each) => each.trim()).join('|');

const number = /^[+-−]?\d*[.,]?\d+(?:e[+-]?\d+)?$/i;

/** A number as the form takes it: a decimal comma becomes a point, the minus of typography the one of keyboards. */
const cleaned = (text: string) => text.trim().replace('−', '-').replace(',', '.');

export interface Loaded {
  rows: EnteredRow[];
  /** lines that hold no number where one was expected, counted from the file's first line as 1 */
  skipped: number[];
}

/**
 * Rows of the form from the file, each number as it was logged, in the units of the system named. A line without a
 * number in a column that was named is left out and named; nothing is rounded or converted.
 */
export function rowsFrom(
  { rows }: LoggedFile,
  definition: RowsDefinition,
  mapping: Mapping,
  system: UnitSystem,
  newId?: NewId,
): Loaded {
  const loaded: Loaded = { rows: [], skipped: [] };
  rows.forEach((cells, i) => {
    const typed: EnteredRow['typed'] = {};
    let usable = true;
    for (const { key, required } of definition.fields) {
      const column = mapping[key];
      if (column === undefined && !required) continue;
      const text = column === undefined ? '' : (cells[column] ?? '').trim();
      if (number.test(text)) typed[key] = { text: cleaned(text), system };
      else usable = false;
    }
    if (usable)
      loaded.rows.push({ ...emptyRow(`${definition.rowLabel} ${loaded.rows.length + 1}`, newId), typed });
    else loaded.skipped.push(i + 2);
  });
  return loaded;
}

/** The unit that a column's numbers are taken in. */
export const unitWords = (field: Fields[number], system: UnitSystem) => displayUnit(field.quantity, system);
