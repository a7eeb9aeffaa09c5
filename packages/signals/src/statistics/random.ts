/** Seeded randomness of the simulator: the same seed gives the same study on every machine. */
export class Random {
  #state: number;

  constructor(seed: number) {
    this.#state = seed >>> 0;
  }

  /** Uniform in [0, 1): mulberry32, a small public-domain generator. */
  next(): number {
    this.#state = (this.#state + 0x6d2b79f5) >>> 0;
    let t = this.#state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  }

  between(low: number, high: number): number {
    return low + (high - low) * this.next();
  }

  below(count: number): number {
    return Math.floor(this.next() * count);
  }

  chance(probability: number): boolean {
    return this.next() < probability;
  }

  /** Box and Muller's normal deviate. */
  normal(mean = 0, sd = 1): number {
    const radius = Math.sqrt(-2 * Math.log(1 - this.next()));
    return mean + sd * radius * Math.cos(2 * Math.PI * this.next());
  }
}
