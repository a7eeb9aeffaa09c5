import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { parse } from 'yaml';

/** How a figure came here. `seen`: read at the address given. The others make no claim on a text. */
export const marks = ['seen', 'from memory', 'computed independently'] as const;
export type Mark = (typeof marks)[number];

/** How close is agreement: significant digits, decimals, a share of the figure, an amount, or the very same. */
export type Agreement =
  { digits: number } | { decimals: number } | { relative: number } | { absolute: number } | { exact: true };

export interface Case {
  given: Record<string, unknown>;
  expected: Record<string, unknown>;
}

export interface Check {
  file: string;
  /** key, title, edition and address of the source; the address may be withheld for the reason given there */
  source: { key: string; title: string; edition: string; address: string };
  check: string;
  /** table, equation or section */
  where: string;
  mark: Mark;
  /** name of a public function of a package, or of a driver in `drive` */
  call: string;
  agreement: Agreement;
  cases: Case[];
}

const folder = new URL('../checks/', import.meta.url).pathname;

/** Every check of the folder. Throws in words when a file does not say what a check must say. */
export function readChecks(): Check[] {
  const paths = readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((path) => path.endsWith('.yaml'))
    .sort();
  return paths.flatMap((path) => readFile(join(folder, path)));
}

function readFile(path: string): Check[] {
  const file = relative(folder, path);
  const content = record(parse(readFileSync(path, 'utf8'), { merge: true }), file);
  const source = record(content['source'], `${file}: source`);
  const origin = {
    key: words(source['key'], `${file}: source.key`),
    title: words(source['title'], `${file}: source.title`),
    edition: words(source['edition'], `${file}: source.edition`),
    address: words(source['address'], `${file}: source.address`),
  };
  if (!Array.isArray(content['checks'])) throw new Error(`${file}: checks must be a list`);
  return content['checks'].map((each: unknown) => {
    const part = record(each, `${file}: check`);
    const name = words(part['check'], `${file}: check`);
    const at = `${file}: ${name}`;
    return {
      file,
      source: origin,
      check: name,
      where: words(part['where'], `${at}: where`),
      mark: mark(part['mark'], at),
      call: words(part['call'], `${at}: call`),
      agreement: agreement(part['agreement'], at),
      cases: cases(part, at),
    };
  });
}

/** Either one `given` and `expected`, or a list of `cases`, each completing the common `given`. */
function cases(part: Record<string, unknown>, at: string): Case[] {
  const common = part['given'] === undefined ? {} : record(part['given'], `${at}: given`);
  const list: unknown = part['cases'] ?? [{ expected: part['expected'] }];
  if (!Array.isArray(list) || list.length === 0) throw new Error(`${at}: cases must be a list`);
  return list.map((each: unknown) => {
    const one = record(each, `${at}: case`);
    const given = one['given'] === undefined ? {} : record(one['given'], `${at}: given`);
    return { given: { ...common, ...given }, expected: record(one['expected'], `${at}: expected`) };
  });
}

function mark(value: unknown, at: string): Mark {
  const found = marks.find((each) => each === value);
  if (!found) throw new Error(`${at}: mark must be one of ${marks.join(', ')}`);
  return found;
}

function agreement(value: unknown, at: string): Agreement {
  const part = record(value, `${at}: agreement`);
  const [kind = '', amount] = Object.entries(part)[0] ?? [];
  const known = ['digits', 'decimals', 'relative', 'absolute'].includes(kind) && typeof amount === 'number';
  const exact = kind === 'exact' && amount === true;
  if (Object.keys(part).length !== 1 || !(known || exact)) throw new Error(`${at}: no agreed digits`);
  return part as Agreement;
}

function record(value: unknown, at: string): Record<string, unknown> {
  if (typeof value !== 'object' || value === null || Array.isArray(value))
    throw new Error(`${at} is missing`);
  return value as Record<string, unknown>;
}

function words(value: unknown, at: string): string {
  if (typeof value !== 'string' || value.trim() === '') throw new Error(`${at} is missing`);
  return value.trim();
}
