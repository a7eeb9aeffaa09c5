import type { Core } from './core.ts';

/**
 * For every visit all others that may be moved, nearest first: row v holds `width` numbers of visits. Beyond the
 * nearest 100 nobody is a neighbour.
 */
export interface Neighbours {
  width: number;
  list: Int32Array;
}

export function neighboursOf(core: Core): Neighbours {
  const { n, place, places, cost, travel, fixed } = core;
  const movable = Array.from({ length: n }, (_, v) => v).filter((v) => !fixed[v]);
  const width = Math.max(0, Math.min(100, movable.length - 1));
  const list = new Int32Array(n * width);
  for (const v of movable) {
    const row = place[v]! * places;
    const far = (u: number) => cost[row + place[u]!]! + travel[row + place[u]!]! * 1e-6;
    const others = movable.filter((u) => u !== v).sort((a, b) => far(a) - far(b) || a - b);
    for (let i = 0; i < width; i++) list[v * width + i] = others[i]!;
  }
  return { width, list };
}
