import type { Figure } from '../figures.ts';
import { differences } from '../signals/agreement.ts';
import { median } from '../statistics/robust.ts';
import { shrunkMeans, type Shrunk } from './shrinkage.ts';

/** A reading beside what was reported for the same thing, and whose they are: all that is kept of it. */
export interface Compared {
  raterId: string;
  installerId: string | null;
  instrumentId: string | null;
  item: string;
  /** time of the device, ms since 1970 */
  at: number;
  /** ln(reading ÷ reported) */
  value: number;
}

/** How far a reading is from what the installer reported, less what is usual for that item and installer. */
export interface Matched extends Compared {
  /** the value less the median of the item and that of the installer; about a share */
  residual: number;
}

/** Readings beside which something was reported. Pure; never throws. */
export const compared = (figures: readonly Figure[]): Compared[] =>
  differences(figures).map(({ figure: { raterId, installerId, instrumentId, item, at }, value }) => ({
    ...{ raterId, installerId, instrumentId, item, at, value },
  }));

/**
 * Readings matched by what was reported for the same thing in the same house, so that houses do not count: from
 * ln(reading ÷ reported) the item's median over all raters is taken, then each installer's own median of the rest.
 * Pure; never throws.
 */
export function matched(rows: readonly Compared[]): Matched[] {
  const center = (keyOf: (row: Compared) => string, of: readonly number[]) => {
    const groups = new Map<string, number[]>();
    rows.forEach((row, i) => {
      const group = groups.get(keyOf(row));
      if (group) group.push(of[i]!);
      else groups.set(keyOf(row), [of[i]!]);
    });
    const middles = new Map([...groups].map(([key, group]) => [key, median(group)]));
    return rows.map((row, i) => of[i]! - middles.get(keyOf(row))!);
  };
  const byItem = center(
    ({ item }) => item,
    rows.map(({ value }) => value),
  );
  const rest = center(({ installerId }) => installerId ?? '', byItem);
  return rows.map((row, i) => ({ ...row, residual: rest[i]! }));
}

/**
 * How far each rater (or instrument) reads from the others, in shares, with small groups drawn toward the mean.
 * Residuals beyond 20 % count as 20 %: they are slips, and one must not move a mean.
 */
export function biases(rows: readonly Matched[], keyOf: (row: Compared) => string | null): Shrunk[] {
  const groups = new Map<string, number[]>();
  for (const row of rows) {
    const { residual } = row;
    const key = keyOf(row);
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
