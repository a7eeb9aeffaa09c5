/** Normal noise with mean 0 and standard deviation 1, the same for the same seed (mulberry32, Box and Muller). */
export function normalNoise(seed: number): () => number {
  const uniform = stream(seed);
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
}

function stream(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    // The middle of one of 2³² cells, so that neither 0 nor 1 comes.
    return (((mixed ^ (mixed >>> 14)) >>> 0) + 0.5) / 2 ** 32;
  };
}
