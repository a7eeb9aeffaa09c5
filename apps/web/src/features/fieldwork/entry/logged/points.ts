import { displayUnit, type RowsDefinition, type UnitSystem } from '@countercheck/measurement';
import { emptyRow, type EnteredRow, type NewId } from '../../../../components/reading-form/index.ts';

/** A file of logged points: its first line names the columns. */
export interface LoggedFile {
  columns: string[];
  rows: string[][];
  comma: 'decimal' | 'thousands';
  /** in which line of the file the names of the columns are, from 1 */
  headLine: number;
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

const plain = /^[+\-−]?\d*\.?\d+(?:e[+-]?\d+)?$/i;
const grouped = /^[+\-−]?\d{1,3}(?:,\d{3})+(?:\.\d+)?$/;

/**
 * A number as the form takes it, or null where it is none: the minus of typography becomes the one of keyboards, and a
 * comma the decimal point, or nothing where the file sets thousands apart with it.
 */
function cleaned(text: string, comma: LoggedFile['comma']): string | null {
  const one =
    comma === 'decimal' ? text.replace(',', '.') : grouped.test(text) ? text.replaceAll(',', '') : text;
  return plain.test(one) ? one.replace('−', '-') : null;
}

/** Which sign parts the columns: the one that most lines have. */
export function delimiterOf(text: string): ';' | '\t' | ',' {
  const lines = text.split(/\r?\n/).filter((line) => line.trim() !== '');
  const most = (sign: string) => lines.filter((line) => line.includes(sign)).length > lines.length / 2;
  return most(';') ? ';' : most('\t') ? '\t' : ',';
}

/**
 * The log within a file's lines, or null where there is none: the names are the first line of several cells with
 * numbers in the line under it. What stands above – who made the file, and when – is left.
 */
export function logIn(lines: readonly string[][], delimiter: string): LoggedFile | null {
  const comma = commaOf(delimiter, lines);
  const filled = (cells: readonly string[]) => cells.filter((cell) => cell !== '').length;
  const hasNumber = (cells: readonly string[] = []) => cells.some((cell) => cleaned(cell, comma) !== null);
  const at = lines.findIndex(
    (cells, i) =>
      filled(cells) > 1 && !hasNumber(cells) && filled(lines[i + 1] ?? []) > 1 && hasNumber(lines[i + 1]),
  );
  const columns = lines[at];
  return columns
    ? { columns: [...columns], rows: lines.slice(at + 1).map((cells) => [...cells]), comma, headLine: at + 1 }
    : null;
}

/** What a comma within a number means: in a file parted by commas, or with decimal points, it sets thousands apart. */
const commaOf = (delimiter: string, rows: readonly string[][]): LoggedFile['comma'] =>
  delimiter === ',' || rows.flat().some((cell) => /\d\.\d/.test(cell) && plain.test(cell.replaceAll(',', '')))
    ? 'thousands'
    : 'decimal';

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
  { rows, comma, headLine }: LoggedFile,
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
      const number = cleaned(text, comma);
      if (number !== null) typed[key] = { text: number, system };
      else usable = false;
    }
    if (usable)
      loaded.rows.push({ ...emptyRow(`${definition.rowLabel} ${loaded.rows.length + 1}`, newId), typed });
    else loaded.skipped.push(headLine + i + 1);
  });
  return loaded;
}

/** The unit that a column's numbers are taken in. */
export const unitWords = (field: Fields[number], system: UnitSystem) => displayUnit(field.quantity, system);
