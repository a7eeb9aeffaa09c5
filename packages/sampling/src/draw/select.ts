import type { WordStream } from './words.ts';

/** A place in the frame and its exact chance to be drawn, as a fraction of whole numbers. */
export interface Chosen {
  position: number;
  chance: readonly [number, number];
}

/**
 * `size` of the items, each equally likely, without replacement: the first steps of a Fisher–Yates shuffle. The
 * items are left in the new order, the chosen ones first. Never throws for 0 ≤ size ≤ items.length.
 * Source: Fisher and Yates; Knuth, algorithm P (from memory).
 */
export function shuffleFirst(items: Uint32Array, size: number, words: WordStream): void {
  for (let at = 0; at < size; at++) {
    const other = at + words.below(items.length - at);
    const kept = items[at]!;
    items[at] = items[other]!;
    items[other] = kept;
  }
}

/** The whole numbers from … from + count − 1. Never throws. */
export function places(count: number, from = 0): Uint32Array {
  const list = new Uint32Array(count);
  for (let at = 0; at < count; at++) list[at] = from + at;
  return list;
}

/** A simple sample without replacement: chance n / N each, also for pairs n(n − 1) / N(N − 1). Never throws. */
export function simpleSample(population: number, size: number, words: WordStream): Chosen[] {
  const items = places(population);
  shuffleFirst(items, size, words);
  return Array.from(items.subarray(0, size).toSorted(), (position) => ({
    position,
    chance: [size, population] as const,
  }));
}

/**
 * Every so many along the frame from one random start r of 0 … N − 1: the places ⌊(r + k·N) / n⌋. In whole numbers,
 * so that each chance is exactly n / N also where N is no multiple of n. Never throws. Source: Madow, systematic
 * sampling (from memory); the chances are proved by going through every start in the tests.
 */
export function systematicSample(population: number, size: number, words: WordStream): Chosen[] {
  const start = words.below(population);
  return Array.from({ length: size }, (_, k) => ({
    position: Math.floor((start + k * population) / size),
    chance: [size, population] as const,
  }));
}
