import type { Figure } from '../figures.ts';
import { differences } from '../signals/agreement.ts';
import { median } from '../statistics/robust.ts';
import { shrunkMeans, type Shrunk } from './shrinkage.ts';

/** How far a reading is from what the installer reported, less what is usual for that item and installer. */
export interface Matched {
  figure: Figure;
  /** ln(reading ÷ reported) less the median of the item and that of the installer; about a share */
  residual: number;
}

/**
 * Readings matched by what was reported for the same thing in the same house, so that houses do not count: from
 * ln(reading ÷ reported) the item's median over all raters is taken, then each installer's own median of the rest.
 * Readings beside which nothing was reported are left out. Pure; never throws.
 */
export function matched(figures: readonly Figure[]): Matched[] {
  const values = differences(figures);
  const center = (keyOf: (i: number) => string, of: readonly number[]) => {
    const groups = new Map<string, number[]>();
    of.forEach((value, i) => groups.set(keyOf(i), [...(groups.get(keyOf(i)) ?? []), value]));
    const middles = new Map([...groups].map(([key, group]) => [key, median(group)]));
    return of.map((value, i) => value - middles.get(keyOf(i))!);
  };
  const byItem = center(
    (i) => values[i]!.item,
    values.map(({ value }) => value),
  );
  const rest = center((i) => values[i]!.figure.installerId ?? '', byItem);
  return values.map(({ figure }, i) => ({ figure, residual: rest[i]! }));
}

/**
 * How far each rater (or instrument) reads from the others, in shares, with small groups drawn toward the mean.
 * Residuals beyond 20 % count as 20 %: they are slips, and one must not move a mean.
 */
export function biases(rows: readonly Matched[], keyOf: (figure: Figure) => string | null): Shrunk[] {
  const groups = new Map<string, number[]>();
  for (const { figure, residual } of rows) {
    const key = keyOf(figure);
    if (key === null) continue;
    const group = groups.get(key) ?? [];
    group.push(Math.max(-0.2, Math.min(0.2, residual)));
    groups.set(key, group);
  }
  const means = [...groups].map(([id, values]) => {
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
    const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
    return { id, n: values.length, mean, sd: Math.sqrt(squares / Math.max(1, values.length - 1)) };
  });
  return shrunkMeans(means).groups;
}
