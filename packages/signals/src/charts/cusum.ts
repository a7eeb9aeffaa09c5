export interface CusumChart {
  /** sums of what lies above and below the target, less the allowance, never below zero; unit of the values */
  high: number[];
  low: number[];
  decision: number;
  outside: number[];
  /** the place from which the sum that first left its limit had been growing; null when none did */
  since: number | null;
}

/**
 * Tabular cumulative sums: high = max(0, high before + x − target − k·σ), low likewise downwards; a sum above h·σ
 * says that the mean has moved, and the place where it last was zero says since when.
 * Source: NIST/SEMATECH e-Handbook, 6.3.2.3 (from memory). k = ½ looks for a shift of one standard deviation; with
 * h = 5 a false alarm comes about every 465 values (from memory; held against simulation in the tests).
 * Throws RangeError when σ is not above zero.
 */
export function cusumChart(
  values: readonly number[],
  { target, sigma, k = 0.5, h = 5 }: { target: number; sigma: number; k?: number; h?: number },
): CusumChart {
  if (!(sigma > 0)) throw new RangeError('The standard deviation is above zero.');
  const decision = h * sigma;
  let [up, down] = [0, 0];
  const high = values.map((value) => (up = Math.max(0, up + value - target - k * sigma)));
  const low = values.map((value) => (down = Math.max(0, down + target - value - k * sigma)));
  const outside = values.flatMap((_, i) => (high[i]! > decision || low[i]! > decision ? [i] : []));
  const [first] = outside;
  let since: number | null = null;
  if (first !== undefined) {
    const sums = high[first]! > decision ? high : low;
    since = first;
    while (since > 0 && sums[since - 1]! > 0) since -= 1;
  }
  return { high, low, decision, outside, since };
}
