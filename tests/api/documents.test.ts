import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { errorRegistry } from '@countercheck/contracts';
import { quantities } from '@countercheck/measurement';

/** The rows of every table of a page whose first cell is code: its cells without the marks. */
function rows(page: string): string[][] {
  return readFileSync(new URL(`../../docs/${page}`, import.meta.url), 'utf8')
    .split('\n')
    .filter((line) => line.startsWith('| `'))
    .map((line) =>
      line
        .split('|')
        .slice(1, -1)
        .map((cell) => cell.trim().replace(/^`(.*)`$/, '$1')),
    );
}

it('describes every error, and none that is not there', () => {
  const described = rows('errors.md').map(([code, status, meaning, remedy]) => {
    expect(meaning && remedy, code).toBeTruthy();
    return [code, Number(status)];
  });
  const registered = Object.entries(errorRegistry).map(([code, { status }]) => [code, status]);
  expect(described.toSorted()).toEqual(registered.toSorted());
});

it('names the one unit of every quantity', () => {
  const named = rows('units.md').map(([quantity, unit, us, si]) => [quantity, unit, us, si]);
  const shown = (label: string) => label || '(none)';
  const kept = Object.entries(quantities).map(([quantity, { unit, us, si }]) => [
    ...[quantity, unit],
    ...[shown(us.label), shown(si.label)],
  ]);
  expect(named).toEqual(kept);
});
