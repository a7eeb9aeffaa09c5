import { textHasher, type TextHasher } from './hash.ts';

/** One file that may be drawn. Names are those of records, so that no person is named in what is handed out. */
export interface FrameRow {
  id: string;
  rater: string;
  builder: string;
  /** kind of visit */
  kind: string;
  /** ISO 8601 day */
  date: string;
  /** risk points, a whole number from 1 on; 1 where the draw does not weigh */
  weight: number;
}

/** The population of a draw in its canonical order, and the fingerprint of exactly that list. */
export interface Frame {
  rows: FrameRow[];
  /** SHA-256 of the lines of the rows, hexadecimal */
  hash: string;
}

const plain = /^[A-Za-z0-9._:-]{1,64}$/;
const texts = ['rater', 'builder', 'kind', 'date', 'id'] as const;

function compare(a: FrameRow, b: FrameRow): number {
  for (const key of texts) if (a[key] !== b[key]) return a[key] < b[key] ? -1 : 1;
  return 0;
}

/** A row's line in the hashed list: a JSON array and a line feed. Never throws. */
export const frameLine = ({ id, rater, builder, kind, date, weight }: FrameRow): string =>
  `["${id}","${rater}","${builder}","${kind}","${date}",${weight}]\n`;

function checkRow(row: FrameRow): void {
  for (const key of texts)
    if (!plain.test(row[key]))
      throw new RangeError(
        `${key} of ${row.id}: at most 64 letters, digits, dots, colons, hyphens, underscores.`,
      );
  if (!Number.isSafeInteger(row.weight) || row.weight < 1 || row.weight > 1_000_000)
    throw new RangeError(`Weight of ${row.id}: a whole number from 1 to 1,000,000.`);
}

/**
 * SHA-256 of rows in the order given. @param hasher where another implementation of SHA-256 is at hand.
 * Never throws.
 */
export function hashRows(rows: readonly FrameRow[], hasher: TextHasher = textHasher()): string {
  let lines = '';
  for (const row of rows) {
    lines += frameLine(row);
    if (lines.length > 1 << 16) {
      hasher.update(lines);
      lines = '';
    }
  }
  hasher.update(lines);
  return hasher.hex();
}

/**
 * The frame of a population: sorted by rater, builder, kind, date and id (by code points) and hashed, so that the same population
 * gives the same frame whatever order it came in. Throws RangeError for text that is not plain, a weight that is no
 * whole number from 1 on, an id that comes twice, or an empty population.
 */
export function makeFrame(population: readonly FrameRow[], hasher?: TextHasher): Frame {
  if (population.length === 0) throw new RangeError('Nothing can be drawn from an empty population.');
  const ids = new Set<string>();
  for (const row of population) {
    checkRow(row);
    if (ids.has(row.id)) throw new RangeError(`${row.id} comes twice.`);
    ids.add(row.id);
  }
  const rows = [...population].sort(compare);
  return { rows, hash: hashRows(rows, hasher) };
}

/** Whether rows stand in canonical order, none twice. Never throws. */
export function inOrder(rows: readonly FrameRow[]): boolean {
  for (let at = 1; at < rows.length; at++) if (compare(rows[at - 1]!, rows[at]!) >= 0) return false;
  return new Set(rows.map(({ id }) => id)).size === rows.length;
}
