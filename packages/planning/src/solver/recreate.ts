import { lookEverywhere, nowhere, putIn } from './insert.ts';
import type { Random } from './random.ts';
import type { Routes } from './routes.ts';

/**
 * Puts everything that is left out where it goes in cheapest, one after the other: in an order of chance, the
 * dearest to leave out first, the farthest first, or those with the fewest shifts or the narrowest windows
 * first. Places are passed over by chance.
 */
export class Recreation {
  readonly #order: Int32Array;
  readonly #keys: Float64Array;
  readonly #found = nowhere();
  readonly #narrow: Float64Array;
  readonly #far: Float64Array;

  constructor({ core }: Routes) {
    const { n, shifts } = core;
    const count = shifts.length;
    this.#order = new Int32Array(n);
    this.#keys = new Float64Array(n);
    this.#narrow = new Float64Array(n);
    this.#far = new Float64Array(n);
    for (let v = 0; v < n; v++) {
      for (let i = core.firstShift[v]!; i < core.firstShift[v + 1]!; i++) {
        const s = core.shiftsOf[i]!;
        this.#narrow[v] = this.#narrow[v]! + core.closes[v * count + s]! - core.opens[v * count + s]! + 1;
        const row = core.place[n + 2 * s]! * core.places;
        this.#far[v] = Math.max(this.#far[v]!, core.cost[row + core.place[v]!]!);
      }
    }
  }

  run(routes: Routes, random: Random, blinks: number): void {
    const count = this.#sort(routes, random);
    for (let i = 0; i < count; i++) {
      const v = this.#order[i]!;
      lookEverywhere(routes, v, this.#found, blinks, random);
      putIn(routes, v, this.#found);
    }
  }

  #sort(routes: Routes, random: Random): number {
    const { core, left, outside } = routes;
    const way = random.below(10);
    for (let i = 0; i < outside; i++) {
      const v = left[i]!;
      this.#order[i] = v;
      const chance = random.next();
      if (way < 3) this.#keys[v] = chance;
      else if (way < 5) this.#keys[v] = -core.minutes[v]! * core.size[v]! + chance;
      else if (way < 7) this.#keys[v] = -this.#far[v]!;
      else if (way < 8) this.#keys[v] = this.#far[v]!;
      else this.#keys[v] = this.#narrow[v]!;
      if (core.leaveOut[v]! > core.problem.weights.unplaced) this.#keys[v] = this.#keys[v]! - 1e9;
    }
    // Few at a time: sorting by insertion needs no room of its own.
    for (let i = 1; i < outside; i++) {
      const v = this.#order[i]!;
      let j = i - 1;
      for (; j >= 0 && this.#keys[this.#order[j]!]! > this.#keys[v]!; j--)
        this.#order[j + 1] = this.#order[j]!;
      this.#order[j + 1] = v;
    }
    return outside;
  }
}
