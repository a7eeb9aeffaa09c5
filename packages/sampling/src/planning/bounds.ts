import { betaQuantile } from '@countercheck/distributions';
import { chanceOfAtMost } from './hypergeometric.ts';

/** A lower and an upper bound in the unit of what is bounded. */
export interface Bounds {
  low: number;
  high: number;
}

function check(found: number, sample: number, confidence: number): void {
  if (!Number.isInteger(found) || !Number.isInteger(sample) || sample < 1 || found < 0 || found > sample)
    throw new RangeError('The number found is a whole number from 0 to the sample.');
  if (!(confidence > 0 && confidence < 1)) throw new RangeError('A confidence lies between 0 and 1.');
}

/**
 * The share of defective ones in an endless population, after `found` of `sample` (Clopper and Pearson, exact): both
 * bounds at once hold with at least the confidence. Shares 0 to 1. Throws RangeError for numbers that do not fit.
 * Source: Clopper and Pearson 1934 (from memory); values computed independently.
 */
export function shareBounds(found: number, sample: number, confidence: number): Bounds {
  check(found, sample, confidence);
  const tail = (1 - confidence) / 2;
  return {
    low: found === 0 ? 0 : betaQuantile(tail, found, sample - found + 1),
    high: found === sample ? 1 : betaQuantile(1 - tail, found + 1, sample - found),
  };
}

/**
 * The same, the upper bound alone: with at least the confidence, the share is not above this. For none found it is
 * 1 − (1 − confidence)^(1/n). Throws RangeError for numbers that do not fit.
 */
export function shareAtMost(found: number, sample: number, confidence: number): number {
  check(found, sample, confidence);
  return found === sample ? 1 : betaQuantile(confidence, found + 1, sample - found);
}

/** The largest whole number up to `most` for which `holds` is still true, when it turns from true to false once. */
function lastThatHolds(from: number, most: number, holds: (value: number) => boolean): number {
  let [low, high] = [from, most + 1];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (holds(middle)) low = middle;
    else high = middle;
  }
  return low;
}

/**
 * How many of a finite population may be defective at the most, after `found` of `sample` without replacement: the
 * largest D whose chance to show at most `found` is still above 1 − confidence. Exact; at least the confidence.
 * Throws RangeError for numbers that do not fit. Source: inversion of the hypergeometric test (Buonaccorsi 1987, from
 * memory); coverage is proved by going through every population in the tests.
 */
export function countAtMost(population: number, sample: number, found: number, confidence: number): number {
  check(found, sample, confidence);
  if (!Number.isInteger(population) || sample > population)
    throw new RangeError('A sample is not larger than its population.');
  const tail = 1 - confidence;
  return lastThatHolds(
    found,
    population - sample + found,
    (defective) => chanceOfAtMost(found, { population, defective, sample }) > tail,
  );
}

/**
 * Both bounds of the number of defective ones in a finite population, each with half of the doubt. Throws RangeError
 * for numbers that do not fit. Source: as `countAtMost`.
 */
export function countBounds(population: number, sample: number, found: number, confidence: number): Bounds {
  const half = (1 + confidence) / 2;
  const high = countAtMost(population, sample, found, half);
  // What is not defective is bounded from above in the same way.
  return { low: population - countAtMost(population, sample, sample - found, half), high };
}
