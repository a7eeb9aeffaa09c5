import { readFileSync } from 'node:fs';
import { parse } from 'yaml';

export const columns = [
  ...(['nobody', 'office', 'rater', 'other', 'quality', 'builder', 'stranger', 'admin'] as const),
  ...(['link', 'half', 'due'] as const),
] as const;
export type Column = (typeof columns)[number];

/** `+` is not in here: it means that none of these was the answer. */
export const refusals: Record<string, string> = {
  S: 'sign-in-required',
  '-': 'not-allowed',
  F: 'second-factor-required',
  X: 'second-factor-setup-required',
  '0': 'not-found',
  V: 'visit-not-yours',
  L: 'link-unknown',
};

interface MatrixFile {
  columns: string[];
  routes: Record<string, Record<string, string>>;
}

/** Every row of the table: the route's name, and a cell for each column. */
export function readMatrix(): Map<string, Record<Column, string>> {
  const text = readFileSync(new URL('./matrix.yaml', import.meta.url), 'utf8');
  const file = parse(text) as MatrixFile;
  if (file.columns.join() !== columns.join()) throw new Error(`The columns are ${columns.join(', ')}.`);
  const rows = new Map<string, Record<Column, string>>();
  for (const [feature, named] of Object.entries(file.routes)) {
    for (const [name, line] of Object.entries(named)) {
      const cells = line.trim().split(/\s+/);
      const unknown = cells.filter((cell) => cell !== '+' && !(cell in refusals));
      if (cells.length !== columns.length || unknown.length > 0)
        throw new Error(`${feature}.${name}: ${columns.length} known cells are needed, it has "${line}"`);
      const row = Object.fromEntries(columns.map((column, index) => [column, cells[index]]));
      rows.set(`${feature}.${name}`, row as Record<Column, string>);
    }
  }
  return rows;
}
