/** A stream of random numbers that gives the same numbers for the same seed, on every machine. */
export interface RandomStream {
  /** uniform, above 0 and below 1 */
  uniform(): number;
  /** standard normal */
  normal(): number;
}

/**
 * A seeded stream: generator "sfc32" (128 bits of state), normals by Box and Muller. For simulation only, never
 * for secrets. @param seed any number; its whole part counts. Never throws. Source: public-domain generator,
 * from memory; mean, spread and quantiles are tested.
 */
export function randomStream(seed: number): RandomStream {
  let [a, b, c, count] = [0x9e3779b9, 0x243f6a88, seed | 0, 1];
  const next = () => {
    const sum = (a + b + count) | 0;
    count = (count + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = (c << 21) | (c >>> 11);
    c = (c + sum) | 0;
    return sum >>> 0;
  };
  for (let i = 0; i < 20; i++) next();
  const uniform = () => (next() + 0.5) / 4294967296;
  let spare = NaN;
  return {
    uniform,
    normal() {
      if (!Number.isNaN(spare)) {
        const kept = spare;
        spare = NaN;
        return kept;
      }
      const radius = Math.sqrt(-2 * Math.log(uniform()));
      const angle = 2 * Math.PI * uniform();
      spare = radius * Math.sin(angle);
      return radius * Math.cos(angle);
    },
  };
}
