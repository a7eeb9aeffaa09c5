import { type Found, lookInto, nowhere, putIn } from './insert.ts';
import type { Routes } from './routes.ts';

/**
 * A first plan: each time the visit goes in next that would lose most by waiting, that is, whose second best
 * shift is dearest beside its best one. What has one shift only comes before everything else.
 */
export function construct(routes: Routes): void {
  const { core } = routes;
  const count = core.shifts.length;
  const best = new Map<number, Found[]>();
  for (const v of routes.left.slice(0, routes.outside)) {
    best.set(v, Array.from({ length: count }, nowhere));
    for (let s = 0; s < count; s++) lookInto(routes, v, s, best.get(v)![s]!, 0, null);
  }
  for (;;) {
    let chosen = -1;
    let where: Found | null = null;
    let mostLost = -Infinity;
    for (const [v, shifts] of best) {
      let first: Found | null = null;
      let second = Infinity;
      const leaveOut = core.leaveOut[v]!;
      for (const each of shifts) {
        if (each.cost >= second) continue;
        if (first === null) first = each;
        else if (each.cost < first.cost) [first, second] = [each, first.cost];
        else second = each.cost;
      }
      if (!first || first.shift < 0) continue;
      const lost = Math.min(second, leaveOut) - first.cost + leaveOut * 1e-3;
      if (lost > mostLost) [chosen, where, mostLost] = [v, first, lost];
    }
    if (!where) return;
    const s = where.shift;
    putIn(routes, chosen, where);
    best.delete(chosen);
    for (const [v, shifts] of best) {
      Object.assign(shifts[s]!, nowhere());
      lookInto(routes, v, s, shifts[s]!, 0, null);
    }
  }
}
