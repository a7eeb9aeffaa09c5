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

function checkText(text: string, key: string, id: string): void {
  if (!plain.test(text))
    throw new RangeError(`${key} of ${id}: at most 64 letters, digits, dots, colons, hyphens, underscores.`);
}

function checkWeight({ id, weight }: FrameRow): void {
  if (!Number.isSafeInteger(weight) || weight < 1 || weight > 1_000_000)
    throw new RangeError(`Weight of ${id}: a whole number from 1 to 1,000,000.`);
}

const repeated = ['rater', 'builder', 'kind', 'date'] as const;

/** Each text of a column once, with its rank among them: numbers are compared many times as quickly. */
function ranksOf(population: readonly FrameRow[], key: (typeof repeated)[number]): Map<string, number> {
  const ranks = new Map<string, number>();
  for (const row of population) {
    if (ranks.has(row[key])) continue;
    checkText(row[key], key, row.id);
    ranks.set(row[key], 0);
  }
  [...ranks.keys()].sort().forEach((text, rank) => ranks.set(text, rank));
  return ranks;
}

interface SortKeys {
  keys: Float64Array;
  /** all keys lie below it */
  bound: number;
}

/** A number per row by which rows stand as rater, builder, kind and date say. */
function sortKeys(population: readonly FrameRow[]): SortKeys {
  const keys = new Float64Array(population.length);
  let most = 1;
  for (const key of repeated) {
    const ranks = ranksOf(population, key);
    most *= ranks.size;
    if (most > Number.MAX_SAFE_INTEGER) throw new RangeError('Too many raters, builders, kinds and days.');
    for (let at = 0; at < keys.length; at++)
      keys[at] = keys[at]! * ranks.size + ranks.get(population[at]![key])!;
  }
  return { keys, bound: most };
}

/**
 * The places of the rows in canonical order. Key and place are packed into one number where both fit, since numbers
 * are sorted many times as quickly as by a function; rows with one key are then put in the order of their ids.
 */
function orderOf(population: readonly FrameRow[], { keys, bound }: SortKeys): ArrayLike<number> {
  const count = keys.length;
  const byId = (a: number, b: number) => (population[a]!.id < population[b]!.id ? -1 : 1);
  if (bound * count > Number.MAX_SAFE_INTEGER)
    return Array.from(keys.keys()).sort((a, b) => keys[a]! - keys[b]! || byId(a, b));
  const packed = keys.map((key, at) => key * count + at).sort();
  const order = Uint32Array.from(packed, (each) => each % count);
  for (let from = 0, to = 1; from < count; from = to, to += 1) {
    while (to < count && keys[order[to]!] === keys[order[from]!]) to += 1;
    if (to - from > 1) order.subarray(from, to).sort(byId);
  }
  return order;
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
 * The frame of a population: sorted by rater, builder, kind, date and id (by code points) and hashed, so that the
 * same population gives the same frame whatever order it came in. Throws RangeError for text that is not plain, a
 * weight that is no whole number from 1 on, an id that comes twice, or an empty population.
 */
export function makeFrame(population: readonly FrameRow[], hasher?: TextHasher): Frame {
  if (population.length === 0) throw new RangeError('Nothing can be drawn from an empty population.');
  const ids = new Set<string>();
  for (const row of population) {
    checkText(row.id, 'id', row.id);
    checkWeight(row);
    ids.add(row.id);
  }
  if (ids.size !== population.length) throw new RangeError('A file comes twice.');
  const rows = Array.from(orderOf(population, sortKeys(population)), (at) => population[at]!);
  return { rows, hash: hashRows(rows, hasher) };
}

/** Whether rows stand in canonical order, none twice. Never throws. */
export function inOrder(rows: readonly FrameRow[]): boolean {
  for (let at = 1; at < rows.length; at++) if (compare(rows[at - 1]!, rows[at]!) >= 0) return false;
  return new Set(rows.map(({ id }) => id)).size === rows.length;
}
