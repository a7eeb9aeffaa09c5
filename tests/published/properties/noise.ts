import normalQuantile from '@stdlib/stats-base-dists-normal-quantile';

/** Normal noise with mean 0 and standard deviation 1, the same for the same seed (generator: mulberry32). */
export function normalNoise(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    // The middle of one of 2³² cells, so that neither 0 nor 1 comes.
    return normalQuantile((((mixed ^ (mixed >>> 14)) >>> 0) + 0.5) / 2 ** 32, 0, 1);
  };
}
