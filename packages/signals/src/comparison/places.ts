import { median, robustSpread } from '../statistics/robust.ts';

const mean = (values: readonly number[]) => values.reduce((sum, each) => sum + each, 0) / values.length;
const square = (x: number) => x * x;

/** So few differences say nothing about what is usual; common practice, no published source. */
export const leastOfAPlace = 8;

/** The variance of a median of normal values, π/2 of that of their mean. */
export const varianceOfMedian = (scatter: number, count: number): number =>
  (Math.PI / 2) * (square(scatter) / count);

export interface Place {
  /** what a rater's differences lie around */
  place: number;
  /** standard deviation of what is not known about that */
  unsure: number;
}

/**
 * What each rater's differences lie around: their median, drawn toward that of all raters as far as chance explains it
 * (normal means with known errors, from memory). What may lie between raters is what their medians show, and no less
 * than the stated accuracy, for an instrument may be off by as much for good.
 * @param groups the differences of each rater, logarithms of shares; those with fewer than eight have a place, and no
 *   say in what is usual
 * @param accuracy mean relative standard uncertainty by the stated accuracy; 0 when unknown
 * @returns the places, and how far differences usually scatter about them; null when nobody has eight. Never throws.
 */
export function placesOf(
  groups: ReadonlyMap<string, readonly number[]>,
  accuracy: number,
): { places: Map<string, Place>; scatter: number } | null {
  const enough = [...groups.values()].filter((offs) => offs.length >= leastOfAPlace);
  if (enough.length === 0) return null;
  const scatter = median(enough.map((offs) => robustSpread(offs)));
  const chanceOf = (count: number) => varianceOfMedian(scatter, count);
  const middles = enough.map((offs) => median(offs));
  const middle = median(middles);
  const shown =
    mean(middles.map((each) => square(each - middle))) - mean(enough.map((offs) => chanceOf(offs.length)));
  const lasting = Math.max(square(accuracy), shown);
  const places = new Map(
    [...groups].map(([id, offs]): [string, Place] => {
      const chance = chanceOf(offs.length);
      const kept = lasting > 0 ? lasting / (lasting + chance) : 0;
      return [id, { place: middle + kept * (median(offs) - middle), unsure: Math.sqrt(kept * chance) }];
    }),
  );
  return { places, scatter };
}

/** How many of sorted numbers lie below a bound; what lies on it but for rounding does not. */
export function below(sorted: Float64Array, bound: number): number {
  let [low, high] = [0, sorted.length];
  while (low < high) {
    const half = (low + high) >> 1;
    if (sorted[half]! < bound - 1e-9) low = half + 1;
    else high = half;
  }
  return low;
}
