import { places, shuffleFirst, type Chosen } from './select.ts';
import type { WordStream } from './words.ts';

/**
 * Which units are certain (1), and over what the others are drawn: a unit whose weight reaches the step T / m is taken
 * for sure, and the rest is looked at again until no such unit is left. Never throws.
 */
export function certainties(
  weights: ArrayLike<number>,
  size: number,
): { certain: Uint8Array; left: number; total: number } {
  const certain = new Uint8Array(weights.length);
  let left = Math.min(size, weights.length);
  let total = 0;
  for (let at = 0; at < weights.length; at++) total += weights[at]!;
  for (let again = true; again && left > 0;) {
    again = false;
    const [step, over] = [total, left];
    for (let at = 0; at < weights.length; at++) {
      if (certain[at] || over * weights[at]! < step) continue;
      certain[at] = 1;
      again = true;
      left -= 1;
      total -= weights[at]!;
    }
  }
  return { certain, left, total };
}

/**
 * The places that a start hits along units in the given order: unit i covers [m·C, m·(C + w_i)) of a line of length
 * m·T, C being the weights before it, and the marks are start + k·T. Never throws.
 */
export function marksHit(
  order: ArrayLike<number>,
  weights: ArrayLike<number>,
  left: number,
  total: number,
  start: number,
): number[] {
  const hit: number[] = [];
  let [before, mark] = [0, start];
  for (let place = 0; place < order.length; place++) {
    before += left * weights[order[place]!]!;
    if (mark >= before) continue;
    hit.push(order[place]!);
    mark += total;
  }
  return hit;
}

/**
 * A sample of fixed size with chances in exact proportion to the weights: certain units first, the others put in
 * random order and passed systematically with one random start (randomised systematic sampling). The chance is
 * m·w_i / T, exactly; chances of pairs are not known exactly, see `horvitzThompson`. Throws RangeError where m·T
 * would pass 2⁵³. Source: Madow 1949, Goodman and Kish 1950, Hartley and Rao 1962 (from memory); the chances are
 * proved by going through every start in the tests.
 */
export function riskWeightedSample(weights: ArrayLike<number>, size: number, words: WordStream): Chosen[] {
  const { certain, left, total } = certainties(weights, size);
  if (left * total > Number.MAX_SAFE_INTEGER)
    throw new RangeError('The weights are too large for this many files: give smaller whole numbers.');
  const chosen: Chosen[] = [];
  for (let position = 0; position < certain.length; position++)
    if (certain[position]) chosen.push({ position, chance: [1, 1] });
  if (left > 0) {
    const order = certain.includes(1)
      ? places(weights.length).filter((at) => !certain[at])
      : places(weights.length);
    shuffleFirst(order, order.length - 1, words);
    for (const position of marksHit(order, weights, left, total, words.below(total)))
      chosen.push({ position, chance: [left * weights[position]!, total] });
  }
  return chosen.sort((a, b) => a.position - b.position);
}
