import { nowhere } from '../insert.ts';
import type { Neighbours } from '../neighbours.ts';
import type { Routes } from '../routes.ts';
import { allAllowed, gain, near, putBack, putBest, takeOut } from './moves.ts';

/** Exchanges two visits near each other, each going where it is cheapest in the other's shift. */
export function swap(routes: Routes, { width, list }: Neighbours): void {
  const { core, previous, shift } = routes;
  const found = nowhere();
  for (let v = 0; v < core.n; v++) {
    for (let i = 0; i < Math.min(near, width); i++) {
      const u = list[v * width + i]!;
      const [s, t] = [shift[v]!, shift[u]!];
      if (core.fixed[v] || s < 0 || t < 0 || s === t || u < v) continue;
      if (!allAllowed(routes, [v], t) || !allAllowed(routes, [u], s)) continue;
      const before = routes.cost;
      const [afterV, afterU] = [previous[v]!, previous[u]!];
      takeOut(routes, v);
      takeOut(routes, u);
      if (putBest(routes, v, t, found) && putBest(routes, u, s, found) && routes.cost < before - gain)
        continue;
      for (const each of [v, u]) if (shift[each]! >= 0) takeOut(routes, each);
      putBack(routes, v, s, afterV);
      putBack(routes, u, t, afterU);
    }
  }
}
