import type { Figure } from '../figures.ts';
import { groupBy } from '../statistics/group-by.ts';
import { median, robustSpread } from '../statistics/robust.ts';

/** One number of a rater on the scale of a test, without its unit. */
export interface Scaled {
  figure: Figure;
  item: string;
  value: number;
}

/** The spread of the same item in the readings of the other raters. */
export interface Peers {
  spreadOf(item: string): number | null;
}

const leastOfAGroup = 8;
const leastRaters = 3;

/** Robust spread of each item in one rater's numbers; items with too few numbers are left out. */
export function spreadsByItem(values: readonly Pick<Scaled, 'item' | 'value'>[]): Map<string, number> {
  const groups = groupByItem(values);
  const spreads = new Map<string, number>();
  for (const [item, group] of groups)
    if (group.length >= leastOfAGroup) spreads.set(item, robustSpread(group.map(({ value }) => value)));
  return spreads;
}

export const groupByItem = <T extends { item: string }>(values: readonly T[]): Map<string, T[]> =>
  groupBy(values, ({ item }) => item);

/**
 * What is usual among the other raters: for each item the median of their spreads, so that neither one very
 * careful nor one very careless rater sets it; null while fewer than three others have read it often enough.
 */
export function peersOf(rater: string, all: ReadonlyMap<string, ReadonlyMap<string, number>>): Peers {
  const known = new Map<string, number | null>();
  return {
    spreadOf(item) {
      const cached = known.get(item);
      if (cached !== undefined) return cached;
      const others: number[] = [];
      for (const [id, spreads] of all) {
        const spread = spreads.get(item);
        if (id !== rater && spread !== undefined) others.push(spread);
      }
      const usual = others.length < leastRaters ? null : median(others);
      known.set(item, usual);
      return usual;
    },
  };
}

const cap = 3;

/**
 * Whether numbers lie closer together than they can: within each item the deviations from the rater's own median,
 * in units of the least spread that is believed, squared and summed over the items. A deviation counts at most
 * three units, so that a few wild ones cannot hide that the rest stand still.
 * @returns the sum, its degrees of freedom (numbers less one per item), and the mean square. Never throws.
 */
export function closeness(
  values: readonly Scaled[],
  least: (item: string, values: readonly Scaled[]) => number,
) {
  let [sum, freedom] = [0, 0];
  const deviations: { figure: Figure; item: string; deviation: number; inUnits: number }[] = [];
  for (const [item, group] of groupByItem(values)) {
    if (group.length < 2) continue;
    const unit = least(item, group);
    if (!(unit > 0)) continue;
    const middle = median(group.map(({ value }) => value));
    freedom += group.length - 1;
    for (const { figure, value } of group) {
      const inUnits = Math.min(Math.abs(value - middle) / unit, cap);
      sum += inUnits ** 2;
      deviations.push({ figure, item, deviation: value - middle, inUnits });
    }
  }
  return { sum, freedom, deviations };
}
