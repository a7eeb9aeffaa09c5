import { lookEverywhere, nowhere, putIn } from '../insert.ts';
import type { Routes } from '../routes.ts';
import { gain, putBack, takeOut } from './moves.ts';

/** Takes each visit out and puts it where it is cheapest, also what was left out. */
export function relocate(routes: Routes): void {
  const { n, fixed } = routes.core;
  const found = nowhere();
  for (let v = 0; v < n; v++) {
    if (fixed[v]) continue;
    const [s, after] = [routes.shift[v]!, routes.previous[v]!];
    const before = routes.cost;
    if (s >= 0) {
      routes.unlink(v);
      routes.refresh(s);
    }
    lookEverywhere(routes, v, found);
    putIn(routes, v, found);
    if (s < 0 || (routes.shift[v]! >= 0 && routes.cost < before - gain)) continue;
    if (routes.shift[v]! >= 0) takeOut(routes, v);
    putBack(routes, v, s, after);
  }
}
