import { lookEverywhere, nowhere, putIn } from '../insert.ts';
import type { Routes } from '../routes.ts';
import { gain, putBack, putBest, takeOut } from './moves.ts';

/** How many of those left out are tried in one round. */
const tried = 20;

/** Brings in a visit that is left out by sending another one of the same shift somewhere else. */
export function eject(routes: Routes): void {
  for (const v of routes.left.slice(0, Math.min(tried, routes.outside))) bringIn(routes, v);
}

function bringIn(routes: Routes, v: number): boolean {
  const { core, next, previous } = routes;
  const found = nowhere();
  for (let i = core.firstShift[v]!; i < core.firstShift[v + 1]!; i++) {
    const s = core.shiftsOf[i]!;
    for (let u = next[core.n + 2 * s]!; u < core.n; u = next[u]!) {
      if (core.fixed[u]) continue;
      const [cost, after] = [routes.cost, previous[u]!];
      takeOut(routes, u);
      if (putBest(routes, v, s, found)) {
        lookEverywhere(routes, u, found);
        if (putIn(routes, u, found) && routes.cost < cost - gain) return true;
        if (routes.shift[u]! >= 0) takeOut(routes, u);
        takeOut(routes, v);
      }
      putBack(routes, u, s, after);
    }
  }
  return false;
}
