import type { Figure } from '../figures.ts';
import { differences } from '../signals/agreement.ts';
import { median } from '../statistics/robust.ts';
import { shrunkMeans, type Shrunk } from './shrinkage.ts';

/** A reading beside what was reported for the same thing, and whose they are: all that is kept of it. */
export interface Compared {
  raterId: string;
  houseId: string;
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
  differences(figures).map(
    ({ figure: { raterId, houseId, installerId, instrumentId, item, at }, value }) => ({
      ...{ raterId, houseId, installerId, instrumentId, item, at, value },
    }),
  );

/** Rounds of fitting; what is left to move after them is far below a thousandth. */
const rounds = 12;

/**
 * Readings matched by what was reported for the same thing in the same house, so that houses do not count: from
 * ln(reading ÷ reported) the item's median over all raters is taken, then what each installer's figures are off by.
 * Raters and installers are fitted in turn by medians (median polish, Tukey 1977, from memory), for a rater who mostly
 * comes to one installer would otherwise lend him what he himself reads high. Whom nobody else comes to cannot be told
 * from his rater: of the two the installer has it. Pure; never throws.
 */
export function matched(rows: readonly Compared[]): Matched[] {
  const middlesOf = (keyOf: (row: Compared) => string, of: (row: Compared, i: number) => number) => {
    const groups = new Map<string, number[]>();
    rows.forEach((row, i) => {
      const group = groups.get(keyOf(row));
      if (group) group.push(of(row, i));
      else groups.set(keyOf(row), [of(row, i)]);
    });
    return new Map([...groups].map(([key, group]) => [key, median(group)]));
  };
  const itemOf = ({ item }: Compared) => item;
  const installerOf = ({ installerId }: Compared) => installerId ?? '';
  const raterOf = ({ raterId }: Compared) => raterId;
  const byItem = middlesOf(itemOf, ({ value }) => value);
  const rest = rows.map((row) => row.value - byItem.get(row.item)!);
  let installers = new Map<string, number>();
  let raters = new Map<string, number>();
  for (let round = 0; round < rounds; round += 1) {
    installers = middlesOf(installerOf, (row, i) => rest[i]! - (raters.get(row.raterId) ?? 0));
    raters = middlesOf(raterOf, (row, i) => rest[i]! - installers.get(installerOf(row))!);
  }
  return rows.map((row, i) => ({ ...row, residual: rest[i]! - installers.get(installerOf(row))! }));
}

const mostOff = 0.2;

/**
 * The readings of each house as one, with the time of the first: they share what the installer's figures are off by
 * there, so that they are no more than one reading to go by. Residuals beyond 20 % count as 20 %: they are slips, and
 * one must not move a mean. Never throws.
 */
export function houseMeans<T extends { houseId: string; at: number; residual: number }>(
  rows: readonly T[],
): { at: number; residual: number }[] {
  const houses = new Map<string, { at: number; sum: number; n: number }>();
  for (const { houseId, at, residual } of rows) {
    const known = houses.get(houseId) ?? { at, sum: 0, n: 0 };
    const sum = known.sum + Math.max(-mostOff, Math.min(mostOff, residual));
    houses.set(houseId, { at: Math.min(known.at, at), sum, n: known.n + 1 });
  }
  return [...houses.values()].map(({ at, sum, n }) => ({ at, residual: sum / n }));
}

/** A rater or an instrument beside the others. */
interface Bias extends Shrunk {
  /** readings behind it; `n` are their houses */
  readings: number;
}

/**
 * How far each rater (or instrument) reads from the others, in shares, with small groups drawn toward the mean. A house
 * counts once, by the mean of its readings (`houseMeans`). Groups of a single house are left out. Never throws.
 */
export function biases(rows: readonly Matched[], keyOf: (row: Compared) => string | null): Bias[] {
  const groups = new Map<string, Matched[]>();
  for (const row of rows) {
    const key = keyOf(row);
    if (key === null) continue;
    const group = groups.get(key);
    if (group) group.push(row);
    else groups.set(key, [row]);
  }
  const means = [...groups].map(([id, group]) => {
    const values = houseMeans(group).map(({ residual }) => residual);
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
    const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
    return { id, n: values.length, mean, sd: Math.sqrt(squares / Math.max(1, values.length - 1)) };
  });
  return shrunkMeans(means).groups.map((group) => ({ ...group, readings: groups.get(group.id)!.length }));
}
