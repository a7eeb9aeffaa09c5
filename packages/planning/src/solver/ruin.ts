import type { Neighbours } from './neighbours.ts';
import type { Random } from './random.ts';
import type { Routes } from './routes.ts';

/** What a ruin needs beside the plan: who is near whom, chance, and which shifts it has touched. */
export class Ruins {
  readonly neighbours: Neighbours;
  readonly random: Random;
  readonly #touched: Uint8Array;
  readonly #list: Int32Array;
  readonly #chain: Int32Array;
  #count = 0;

  constructor(routes: Routes, neighbours: Neighbours, random: Random) {
    const { n, shifts } = routes.core;
    [this.neighbours, this.random] = [neighbours, random];
    this.#touched = new Uint8Array(shifts.length);
    this.#list = new Int32Array(shifts.length);
    this.#chain = new Int32Array(n);
  }

  #take(routes: Routes, v: number): void {
    const s = routes.shift[v]!;
    if (!this.#touched[s]) {
      this.#touched[s] = 1;
      this.#list[this.#count++] = s;
    }
    routes.unlink(v);
  }

  /** Works out the times of what was touched. */
  settle(routes: Routes): void {
    for (let i = 0; i < this.#count; i++) {
      routes.refresh(this.#list[i]!);
      this.#touched[this.#list[i]!] = 0;
    }
    this.#count = 0;
  }

  /** A visit to begin with that may be taken out, −1 when chance finds none. */
  #seed(routes: Routes): number {
    const { n, fixed } = routes.core;
    for (let tries = 0; tries < 20; tries++) {
      const v = this.random.below(n);
      if (!fixed[v]) return v;
    }
    return -1;
  }

  /**
   * Takes a stretch out of each of several shifts that pass near one visit, sometimes leaving a piece in the
   * middle: the ruin of Christiaens and Vanden Berghe (Transportation Science 54(2), 2020; from memory).
   */
  strings(routes: Routes, meanTaken: number): void {
    const { neighbours, random } = this;
    const seed = this.#seed(routes);
    if (seed < 0) return;
    const { n, shifts } = routes.core;
    let filled = 0;
    for (let s = 0; s < shifts.length; s++) if (routes.count[s]! > 0) filled++;
    if (filled === 0) return;
    const longest = Math.max(1, Math.min(10, (n - routes.outside) / filled));
    const wanted = Math.floor(1 + random.next() * ((4 * meanTaken) / (1 + longest)));
    for (let i = -1, done = 0; i < neighbours.width && done < wanted; i++) {
      const v = i < 0 ? seed : neighbours.list[seed * neighbours.width + i]!;
      const s = routes.shift[v]!;
      if (s < 0 || this.#touched[s]) continue;
      const most = Math.min(routes.count[s]!, longest);
      this.#takeStretch(routes, v, s, Math.floor(1 + random.next() * most));
      if (this.#touched[s]) done++;
    }
  }

  #takeStretch(routes: Routes, v: number, s: number, length: number): void {
    const { random } = this;
    const { n, fixed } = routes.core;
    const chain = this.#chain;
    let count = 0;
    let at = 0;
    for (let u = routes.next[n + 2 * s]!; u < n; u = routes.next[u]!) {
      if (u === v) at = count;
      chain[count++] = u;
    }
    let keep = 0;
    if (length > 1 && length < count && random.next() < 0.5)
      for (keep = 1; length + keep < count && random.next() > 0.01;) keep++;
    const whole = Math.min(count, length + keep);
    const first = Math.max(0, at - whole + 1);
    const last = Math.min(at, count - whole);
    const from = first + random.below(last - first + 1);
    const keptFrom = from + 1 + random.below(Math.max(1, whole - keep - 1));
    for (let i = from; i < from + whole; i++) {
      if (keep > 0 && i >= keptFrom && i < keptFrom + keep) continue;
      if (!fixed[chain[i]!]) this.#take(routes, chain[i]!);
    }
  }

  /** Takes out visits by chance. */
  scattered(routes: Routes, meanTaken: number): void {
    for (let left = 1 + this.random.below(2 * meanTaken); left > 0; left--) {
      const v = this.#seed(routes);
      if (v >= 0 && routes.shift[v]! >= 0) this.#take(routes, v);
    }
  }

  /** Takes out what lies farthest off its way, by chance rather the farther. */
  detours(routes: Routes, meanTaken: number): void {
    const { core } = routes;
    for (let left = 1 + this.random.below(meanTaken); left > 0; left--) {
      let worst = -1;
      let most = 0;
      for (let tries = 0; tries < 12; tries++) {
        const v = this.#seed(routes);
        if (v < 0 || routes.shift[v]! < 0) continue;
        const [before, after] = [routes.previous[v]!, routes.next[v]!];
        const saved =
          routes.way(before, v) +
          routes.way(v, after) -
          routes.way(before, after) +
          core.extra[v * core.shifts.length + routes.shift[v]!]!;
        if (saved > most) [worst, most] = [v, saved];
      }
      if (worst >= 0) this.#take(routes, worst);
    }
  }

  /** Empties a whole shift, and another one that passes near it. */
  wholeShifts(routes: Routes): void {
    const seed = this.#seed(routes);
    if (seed < 0) return;
    const { n, fixed } = routes.core;
    const { neighbours } = this;
    for (let i = -1, done = 0; i < neighbours.width && done < 2; i++) {
      const v = i < 0 ? seed : neighbours.list[seed * neighbours.width + i]!;
      const s = routes.shift[v]!;
      if (s < 0 || this.#touched[s] || routes.count[s]! > 15) continue;
      done++;
      for (let u = routes.next[n + 2 * s]!; u < n;) {
        const after = routes.next[u]!;
        if (!fixed[u]) this.#take(routes, u);
        u = after;
      }
    }
  }

  /** Makes room for a visit that is left out: empties some of the shifts that it may go to. */
  room(routes: Routes): void {
    if (routes.outside === 0) return this.wholeShifts(routes);
    const { core } = routes;
    const v = routes.left[this.random.below(routes.outside)]!;
    const [first, end] = [core.firstShift[v]!, core.firstShift[v + 1]!];
    for (let tries = 0; tries < 2 && end > first; tries++) {
      const s = core.shiftsOf[first + this.random.below(end - first)]!;
      for (let u = routes.next[core.n + 2 * s]!; u < core.n;) {
        const after = routes.next[u]!;
        if (!core.fixed[u] && this.random.next() < 0.7) this.#take(routes, u);
        u = after;
      }
    }
  }
}
