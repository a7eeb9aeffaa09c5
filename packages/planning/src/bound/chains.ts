import { never, type Core } from '../solver/core.ts';
import { type Memory, remembered } from './memory.ts';

/** What a day is worth leaving home for: for each visit what it brings, beside what the ways cost. */
export interface Prices {
  /** of a visit */
  visit: Float64Array;
  /** of a minute of visits of a rater, at most 0 */
  minute: Float64Array;
}

export interface PricedChain {
  visits: number[];
  /** cost less prices */
  reduced: number;
}

/** As many labels as a day may hold before it is given up, and how often the clock is looked at. */
const mostLabels = 200_000;
const look = 256;
/** The grain of the time that is left, min. */
const slot = 5;

/** Chains under work on one shift, one entry each; the times are those that `Routes` keeps. */
class Labels {
  count = 0;
  node = new Int32Array(1024);
  parent = new Int32Array(1024);
  mask = new Int32Array(1024);
  dead = new Uint8Array(1024);
  reduced = new Float64Array(1024);
  leaves0 = new Float64Array(1024);
  leaves1 = new Float64Array(1024);

  add(node: number, parent: number, mask: number, reduced: number, leaves0: number, leaves1: number): number {
    const at = this.count++;
    if (at === this.node.length) this.#grow();
    this.node[at] = node;
    this.parent[at] = parent;
    this.mask[at] = mask;
    this.dead[at] = 0;
    this.reduced[at] = reduced;
    this.leaves0[at] = leaves0;
    this.leaves1[at] = leaves1;
    return at;
  }

  #grow(): void {
    const twice = <A extends Int32Array | Uint8Array | Float64Array>(old: A, fresh: A) => (
      fresh.set(old),
      fresh
    );
    const size = 2 * this.node.length;
    this.node = twice(this.node, new Int32Array(size));
    this.parent = twice(this.parent, new Int32Array(size));
    this.mask = twice(this.mask, new Int32Array(size));
    this.dead = twice(this.dead, new Uint8Array(size));
    this.reduced = twice(this.reduced, new Float64Array(size));
    this.leaves0 = twice(this.leaves0, new Float64Array(size));
    this.leaves1 = twice(this.leaves1, new Float64Array(size));
  }
}

/**
 * The chains of visits that are worth most on a shift by the prices, the best of them first, at most `wanted` below
 * 0: by labels that are given up when another one at the same visit is at least as cheap, as early, and remembers no
 * more. Promises that start late and the room of a day are left out of account, which makes chains cheaper, never
 * dearer. Gives null when the deadline (of `performance.now()`) passes or there are too many.
 */
export function bestChains(
  core: Core,
  s: number,
  prices: Prices,
  memory: Memory,
  wanted: number,
  deadline: number,
): PricedChain[] | null {
  const { n, place, places, cost, travel, minutes, step } = core;
  const { from, to, pauseMinutes, pauseFrom, pauseTo } = core.shifts[s]!;
  const paused = pauseMinutes > 0;
  const [home, end] = [place[n + 2 * s]!, place[n + 2 * s + 1]!];
  const candidates = candidatesOf(core, s, prices);
  const { count, visit, worth, opens, closes } = candidates;
  const hope = hopeOf(core, s, candidates);
  const labels = new Labels();
  const at: number[][] = Array.from({ length: n }, () => []);
  const ends = new Map<number, number>();
  const endCost = new Map<number, number>();

  /** Goes on from a label (−1 = from home) to a visit; false when there are too many labels. */
  const extend = (label: number, i: number): void => {
    const v = visit[i]!;
    const u = label < 0 ? -1 : labels.node[label]!;
    const row = (u < 0 ? home : place[u]!) * places + place[v]!;
    const reduced = (label < 0 ? 0 : labels.reduced[label]!) + cost[row]! - worth[i]!;
    const t = travel[row]!;
    const early = label >= 0 ? labels.leaves0[label]! : paused ? from : never;
    const later =
      label >= 0
        ? labels.leaves1[label]!
        : !paused
          ? from
          : from <= pauseTo
            ? Math.max(from, pauseFrom) + pauseMinutes
            : never;
    let zero = early + t;
    let one = later + t;
    if (early <= pauseTo) one = Math.min(one, Math.max(zero, pauseFrom) + pauseMinutes);
    const [first, last] = [opens[i]!, closes[i]!];
    zero = zero <= first ? first : step > 0 ? Math.ceil(zero / step) * step : zero;
    one = one <= first ? first : step > 0 ? Math.ceil(one / step) * step : one;
    zero = zero <= last ? zero + minutes[v]! : never;
    one = one <= last ? one + minutes[v]! : never;
    const free = to - Math.min(zero, one);
    if (free < 0 || reduced > hope[Math.floor(free / slot)]!) return;
    const mask = u < 0 ? 1 << memory.bit[v * n + v]! : remembered(memory, n, labels.mask[label]!, u, v);
    const others = at[v]!;
    let kept = 0;
    for (const other of others) {
      const known = labels.mask[other]!;
      if (
        labels.reduced[other]! <= reduced &&
        labels.leaves0[other]! <= zero &&
        labels.leaves1[other]! <= one &&
        (known & mask) === known
      )
        return;
      const worse =
        reduced <= labels.reduced[other]! &&
        zero <= labels.leaves0[other]! &&
        one <= labels.leaves1[other]! &&
        (known & mask) === mask;
      if (worse) labels.dead[other] = 1;
      else others[kept++] = other;
    }
    others.length = kept;
    const added = labels.add(v, label, mask, reduced, zero, one);
    others.push(added);
    close(added, v);
  };
  /** What the chain is worth when the day ends here. */
  const close = (label: number, v: number): void => {
    const row = place[v]! * places + end;
    const [early, t] = [labels.leaves0[label]!, travel[row]!];
    let one = labels.leaves1[label]! + t;
    if (early <= pauseTo) one = Math.min(one, Math.max(early + t, pauseFrom) + pauseMinutes);
    if (early + t > Math.min(to, pauseTo) && one > to) return;
    const whole = labels.reduced[label]! + cost[row]!;
    if (whole < (endCost.get(v) ?? -1e-7)) {
      endCost.set(v, whole);
      ends.set(v, label);
    }
  };

  for (let i = 0; i < count; i++) extend(-1, i);
  for (let label = 0; label < labels.count; label++) {
    if (label % look === 0 && (performance.now() > deadline || labels.count > mostLabels)) return null;
    if (labels.dead[label]) continue;
    const u = labels.node[label]!;
    const mask = labels.mask[label]!;
    for (let i = 0; i < count; i++) {
      const b = memory.bit[u * n + visit[i]!]!;
      if (b >= 0 && (mask >> b) & 1) continue;
      extend(label, i);
    }
  }
  return [...ends]
    .map(([v, label]) => ({ label, reduced: endCost.get(v)! }))
    .sort((a, b) => a.reduced - b.reduced)
    .slice(0, wanted)
    .map(({ label, reduced }) => ({ visits: chainOf(labels, label), reduced }));
}

/** The visits that a shift may have, what each is worth there and when it may start. */
interface Candidates {
  count: number;
  visit: Int32Array;
  worth: Float64Array;
  opens: Float64Array;
  closes: Float64Array;
}

function candidatesOf(core: Core, s: number, prices: Prices): Candidates {
  const shifts = core.shifts.length;
  const rater = core.shifts[s]!.rater;
  const list: number[] = [];
  for (let v = 0; v < core.n; v++) if (core.allowed[v * shifts + s]) list.push(v);
  return {
    count: list.length,
    visit: Int32Array.from(list),
    worth: Float64Array.from(
      list,
      (v) => prices.visit[v]! + prices.minute[rater]! * core.minutes[v]! - core.extra[v * shifts + s]!,
    ),
    opens: Float64Array.from(list, (v) => core.opens[v * shifts + s]!),
    closes: Float64Array.from(list, (v) => core.closes[v * shifts + s]!),
  };
}

/**
 * By the minutes still free after a visit, in slots: above which cost a chain can no longer end below 0. Whatever may
 * still come brings at most what a knapsack of that time holds, each visit at its worth less the cheapest way to it,
 * as long as it lasts with the shortest way to it; and there is at least the cheapest way back.
 */
function hopeOf(core: Core, s: number, { count, visit, worth }: Candidates): Float64Array {
  const { n, place, places, cost, travel, minutes } = core;
  const { from, to } = core.shifts[s]!;
  const slots = Math.floor((to - from) / slot) + 1;
  const best = new Float64Array(slots);
  const end = place[n + 2 * s + 1]!;
  let back = Infinity;
  for (let i = 0; i < count; i++) {
    const own = place[visit[i]!]!;
    back = Math.min(back, cost[own * places + end]!);
    let [way, time] = [Infinity, Infinity];
    for (let j = 0; j < count; j++) {
      if (j === i) continue;
      const row = place[visit[j]!]! * places + own;
      way = Math.min(way, cost[row]!);
      time = Math.min(time, travel[row]!);
    }
    const value = worth[i]! - way;
    if (!(value > 0)) continue;
    const length = Math.floor((minutes[visit[i]!]! + time) / slot);
    // Of visits shorter than the grain any number may still come.
    if (length === 0) return best.fill(Infinity);
    // Forgetful chains may have a visit again, so the knapsack may too.
    for (let free = length; free < slots; free++)
      best[free] = Math.max(best[free]!, best[free - length]! + value);
  }
  return best.map((each) => each - back - 1e-7);
}

function chainOf(labels: Labels, last: number): number[] {
  const visits: number[] = [];
  for (let label = last; label >= 0; label = labels.parent[label]!) visits.unshift(labels.node[label]!);
  return visits;
}
