/** The middle value; the mean of the two middle ones of an even number. NaN of nothing. Never throws. */
export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}

/** 1 / Φ⁻¹(3/4): makes the median absolute deviation estimate the standard deviation of a normal distribution. */
const perDeviation = 1.482602218505602;

/**
 * Spread of values around their median as a standard deviation that a few wild values do not move: 1.4826 times
 * the median absolute deviation, in the unit of the values. Source: from memory (a textbook estimate); the factor
 * is 1 / Φ⁻¹(3/4). NaN of nothing; 0 when more than half are the same. Never throws.
 */
export function robustSpread(values: readonly number[]): number {
  const middle = median(values);
  return perDeviation * median(values.map((value) => Math.abs(value - middle)));
}
