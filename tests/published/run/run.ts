import { at, call } from './call.ts';
import type { Check } from './check.ts';
import { agreementWords, compare, type Figure } from './compare.ts';

export interface Outcome {
  check: Check;
  figures: Figure[];
  agrees: boolean;
}

/** Runs one check; what a function throws counts as a figure that does not agree. */
export function runCheck(check: Check): Outcome {
  const figures = check.cases.flatMap(({ given, expected }) => {
    const found = safely(check.call, given);
    return Object.entries(expected).map(([key, figure]) =>
      compare(key, figure, at(found, key), check.agreement),
    );
  });
  return { check, figures, agrees: figures.length > 0 && figures.every(({ agrees }) => agrees) };
}

function safely(name: string, given: Record<string, unknown>): Record<string, unknown> {
  try {
    return call(name, given);
  } catch (error) {
    return { threw: String(error) };
  }
}

/** What does not agree, a line for each figure. */
export function disagreements({ check, figures }: Outcome): string {
  return figures
    .filter(({ agrees }) => !agrees)
    .map(({ key, expected, found }) => `${check.check}: ${key} should be ${expected}, was ${show(found)}`)
    .join('\n');
}

function show(found: unknown): string {
  return typeof found === 'object' ? JSON.stringify(found) : String(found);
}

/** All outcomes as a table for people, sources in order of their first check. */
export function table(outcomes: readonly Outcome[]): string {
  const head = ['', 'source', 'check', 'mark', 'figures', 'agreed', 'largest difference'];
  const rows = outcomes.map(({ check, figures, agrees }) => [
    agrees ? '✓' : '✗',
    check.source.key,
    check.check,
    check.mark,
    String(figures.length),
    agreementWords(check.agreement),
    largest(figures),
  ]);
  const widths = head.map((title, i) => Math.max(...[head, ...rows].map((row) => (row[i] ?? title).length)));
  return [head, ...rows]
    .map((row) =>
      row
        .map((cell, i) => cell.padEnd(widths[i] ?? 0))
        .join('  ')
        .trimEnd(),
    )
    .join('\n');
}

function largest(figures: readonly Figure[]): string {
  const differences = figures.flatMap(({ difference }) => (difference === null ? [] : [difference]));
  return differences.length === 0 ? '–' : Math.max(...differences).toExponential(1);
}
