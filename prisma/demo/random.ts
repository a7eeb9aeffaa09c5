/** Seeded randomness: the same seed tells the same story on every machine. */
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

  integer(low: number, high: number): number {
    return Math.floor(this.between(low, high + 1));
  }

  chance(probability: number): boolean {
    return this.next() < probability;
  }

  pick<T>(items: readonly T[]): T {
    return items[this.integer(0, items.length - 1)] as T;
  }

  /** Box and Muller's normal deviate. */
  normal(mean = 0, sd = 1): number {
    const radius = Math.sqrt(-2 * Math.log(1 - this.next()));
    return mean + sd * radius * Math.cos(2 * Math.PI * this.next());
  }

  /** Workmanship spreads by factors, so its quantities are log-normal around their median. */
  lognormal(median: number, spread: number): number {
    return median * Math.exp(this.normal(0, Math.log(spread)));
  }

  uuid(): string {
    const hex = Array.from({ length: 32 }, () => this.integer(0, 15).toString(16));
    hex[12] = '4';
    hex[16] = this.pick(['8', '9', 'a', 'b']);
    const text = hex.join('');
    return [text.slice(0, 8), text.slice(8, 12), text.slice(12, 16), text.slice(16, 20), text.slice(20)].join(
      '-',
    );
  }
}
