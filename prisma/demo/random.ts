import { Random as Seeded } from '@countercheck/signals';

/** Seeded randomness of the demo: the same seed tells the same story on every machine. */
export class Random extends Seeded {
  integer(low: number, high: number): number {
    return Math.floor(this.between(low, high + 1));
  }

  pick<T>(items: readonly T[]): T {
    return items[this.integer(0, items.length - 1)] as T;
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
