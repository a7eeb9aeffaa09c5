/**
 * Seeded randomness of simulations and invented data: the same seed gives the same study on every machine. For
 * simulation only, never for secrets. No method throws; the seed is any number, of which 32 bits count.
 * Source: mulberry32, a small public-domain generator, and Box and Muller's normal deviate (from memory).
 */
export class Random {
  #state: number;

  constructor(seed: number) {
    this.#state = seed >>> 0;
  }

  /** Uniform, from 0 up to, but not including, 1. */
  next(): number {
    this.#state = (this.#state + 0x6d2b79f5) >>> 0;
    let t = this.#state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  }

  /** Uniform from `low` up to `high`. */
  between(low: number, high: number): number {
    return low + (high - low) * this.next();
  }

  /** A whole number from 0 to `count` − 1. */
  below(count: number): number {
    return Math.floor(this.next() * count);
  }

  /** True with this probability, 0 to 1. */
  chance(probability: number): boolean {
    return this.next() < probability;
  }

  /** Normally distributed around `mean` with the standard deviation `sd`. */
  normal(mean = 0, sd = 1): number {
    const radius = Math.sqrt(-2 * Math.log(1 - this.next()));
    return mean + sd * radius * Math.cos(2 * Math.PI * this.next());
  }
}
