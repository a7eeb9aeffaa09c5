import { CsvError, parse } from 'csv-parse/sync';
import { importColumns } from '@countercheck/contracts';

export type Column = (typeof importColumns)[number];
export type Cells = Partial<Record<Column, string>>;
export interface RowProblem {
  column: string | null;
  message: string;
}
export interface CsvRow {
  /** where the row begins in the file, counted as an editor counts */
  line: number;
  cells: Cells;
  problems: RowProblem[];
}
export interface CsvFile {
  rows: CsvRow[];
  problems: string[];
}

const mostRows = 5000;
const required: readonly Column[] = ['lot', 'address', 'community', 'plan'];
const known = new Set<string>(importColumns);

/** Spreadsheets write semicolons or tabs where the comma is the decimal sign. */
function delimiterOf(text: string): string {
  const header = text.slice(0, text.search(/\r|\n|$/)).replaceAll(/"[^"]*"/g, '');
  const count = (delimiter: string) => header.split(delimiter).length;
  return [',', ';', '\t'].reduce((best, each) => (count(each) > count(best) ? each : best));
}

function headerProblems(header: readonly string[]): string[] {
  const given = header.filter((name) => name !== '');
  const unknown = given.filter((name) => !known.has(name));
  const twice = given.filter((name, i) => given.indexOf(name) < i);
  const missing = required.filter((name) => !given.includes(name));
  return [
    ...unknown.map(
      (name) => `Nobody knows the column “${name}”. The columns are ${importColumns.join(', ')}.`,
    ),
    ...[...new Set(twice)].map((name) => `The column “${name}” stands in the header twice.`),
    ...missing.map((name) => `The column “${name}” is missing.`),
  ];
}

function csvProblem(error: unknown): string {
  if (!(error instanceof CsvError)) throw error;
  const line = typeof error['lines'] === 'number' ? `Line ${error['lines']}: ` : '';
  if (error.code === 'CSV_QUOTE_NOT_CLOSED') return `${line}a quotation mark is opened and not closed.`;
  if (/QUOTE/.test(error.code)) return `${line}a quotation mark stands inside a cell; write it twice.`;
  return `${line}this is not a CSV file that can be read (${error.message}).`;
}

/** Reads the text into rows by column name, before anything is known about what the cells mean. */
export function readCsv(csv: string): CsvFile {
  let records: { record: string[]; info: { lines: number } }[];
  try {
    records = parse(csv, {
      bom: true,
      delimiter: delimiterOf(csv),
      info: true,
      relax_column_count: true,
      trim: true,
    }) as unknown as typeof records;
  } catch (error) {
    return { rows: [], problems: [csvProblem(error)] };
  }
  const [first, ...rest] = records;
  if (!first) return { rows: [], problems: ['The file is empty.'] };
  const header = first.record.map((name) => name.toLowerCase().replaceAll(/\s+/g, '_'));
  const problems = headerProblems(header);
  const filled = rest.filter(({ record }) => record.some((cell) => cell !== ''));
  if (filled.length === 0) problems.push('The file has no rows below its header.');
  if (filled.length > mostRows)
    return {
      rows: [],
      problems: [...problems, `The file has ${filled.length} rows; at most ${mostRows} go in at once.`],
    };
  // A cell with line breaks in it ends further down than its row begins.
  const line = (record: string[], ends: number) =>
    ends - record.reduce((sum, cell) => sum + (cell.match(/\r\n|\r|\n/g)?.length ?? 0), 0);
  const rows = filled.map(({ record, info }): CsvRow => {
    const cells: Cells = {};
    header.forEach((name, i) => {
      if (known.has(name)) cells[name as Column] ??= record[i] ?? '';
    });
    const beyond = record.slice(header.length).some((cell) => cell !== '');
    const message = `This row has ${record.length} cells, the header ${header.length}.`;
    return { line: line(record, info.lines), cells, problems: beyond ? [{ column: null, message }] : [] };
  });
  return { rows, problems };
}
