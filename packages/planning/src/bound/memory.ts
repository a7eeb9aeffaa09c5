import type { Core } from '../solver/core.ts';

/** What a chain of visits remembers of itself, one bit each; beyond it a visit may come up again. */
const most = 9;
/** So many visits are remembered all of them: no chain has one twice. */
const all = 31;

/**
 * For each visit the ones that a chain ending there remembers (the ng-routes of Baldacci, Mingozzi and Roberti,
 * Operations Research 59(5), 2011; from memory). Chains that forget are more than there are days, never fewer, so
 * what none of them undercuts no plan does either.
 */
export interface Memory {
  width: number;
  /** at `end × n + visit`: the bit, −1 = is not remembered at that end */
  bit: Int8Array;
  /** at `end × width + bit`: the visit, −1 = none */
  visit: Int32Array;
}

export function memoryOf({ n, place, places, cost, travel }: Core): Memory {
  const width = n <= all ? n : most;
  const bit = new Int8Array(n * n).fill(-1);
  const visit = new Int32Array(n * width).fill(-1);
  for (let v = 0; v < n; v++) {
    const row = place[v]! * places;
    const far = (u: number) => (u === v ? -1 : cost[row + place[u]!]! + travel[row + place[u]!]! * 1e-6);
    const order = Array.from({ length: n }, (_, u) => u);
    if (n > all) order.sort((a, b) => far(a) - far(b) || a - b);
    order.slice(0, width).forEach((u, b) => {
      bit[v * n + u] = b;
      visit[v * width + b] = u;
    });
  }
  return { width, bit, visit };
}

/** What is still remembered at `to` of what was at `from`, and `to` itself. */
export function remembered(memory: Memory, n: number, mask: number, from: number, to: number): number {
  const { width, bit, visit } = memory;
  let kept = 1 << bit[to * n + to]!;
  for (let left = mask; left !== 0; left &= left - 1) {
    const b = 31 - Math.clz32(left & -left);
    const at = bit[to * n + visit[from * width + b]!]!;
    if (at >= 0) kept |= 1 << at;
  }
  return kept;
}
