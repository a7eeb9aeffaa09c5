/** Whole numbers, evenly spread, from a seed: xorshift with 32 bits (Marsaglia 2003, from memory). Not for secrets. */
export class Random {
  #state: number;

  constructor(seed: number) {
    // The generator never leaves 0, and neighbouring seeds should not start alike.
    this.#state = Math.imul(seed ^ 0x9e3779b9, 0x85ebca6b) | 0 || 1;
    for (let i = 0; i < 8; i++) this.next();
  }

  /** From 0 up to, but not including, 1. */
  next(): number {
    let x = this.#state;
    x ^= x << 13;
    x ^= x >>> 17;
    x ^= x << 5;
    this.#state = x;
    return (x >>> 0) / 4294967296;
  }

  /** 0 … count − 1 */
  below(count: number): number {
    return Math.floor(this.next() * count);
  }
}
