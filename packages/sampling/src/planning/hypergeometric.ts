import hypergeometricCdf from '@stdlib/stats-base-dists-hypergeometric-cdf';

/** A population, how many of it are defective, and how many are looked at; whole numbers. */
export interface Lot {
  population: number;
  defective: number;
  sample: number;
}

/**
 * Chance that a sample without replacement shows at most `found` defective ones, 0 to 1; NaN for numbers that are
 * not whole or do not fit. Never throws. Source: hypergeometric distribution, by an independent library (@stdlib).
 */
export function chanceOfAtMost(found: number, { population, defective, sample }: Lot): number {
  return hypergeometricCdf(found, population, defective, sample);
}

/**
 * Chance that a sample without replacement shows none of the defective ones: the product of (N − D − i) / (N − i).
 * 0 to 1. Never throws. Source: textbooks of probability; values computed independently.
 */
export function chanceOfNone({ population, defective, sample }: Lot): number {
  // The shorter of the two equal products.
  const [few, many] = sample < defective ? [sample, defective] : [defective, sample];
  let chance = 1;
  for (let i = 0; i < few && chance > 0; i++) chance *= Math.max(0, population - many - i) / (population - i);
  return chance;
}
