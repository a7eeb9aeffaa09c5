import type { Neighbours } from '../neighbours.ts';
import type { Routes } from '../routes.ts';
import { allAllowed, gain, near, withinRoom } from './moves.ts';

/** Moves two or three visits together behind a neighbour of the first. */
export function moveStretches(routes: Routes, { width, list }: Neighbours, length: number): void {
  const { core, next, previous, shift } = routes;
  const { n, fixed } = core;
  const stretch: number[] = [];
  for (let v = 0; v < n; v++) {
    if (shift[v]! < 0) continue;
    stretch.length = 0;
    for (let u = v; u < n && stretch.length < length && !fixed[u]; u = next[u]!) stretch.push(u);
    if (stretch.length < length) continue;
    const [s, after, end] = [shift[v]!, previous[v]!, stretch[length - 1]!];
    const saved = routes.way(after, v) + routes.way(end, next[end]!) - routes.way(after, next[end]!);
    for (let i = 0; i < Math.min(near, width); i++) {
      const u = list[v * width + i]!;
      const t = shift[u]!;
      if (t < 0 || stretch.includes(u)) continue;
      const added = routes.way(u, v) + routes.way(end, next[u]!) - routes.way(u, next[u]!);
      if (added >= saved - gain || next[u] === v) continue;
      if (!allAllowed(routes, stretch, t)) continue;
      const before = routes.cost;
      for (const each of stretch) routes.unlink(each);
      stretch.reduce((at, each) => (routes.link(each, t, at), each), u);
      const fits = routes.refresh(t) && withinRoom(routes, t);
      if (s !== t) routes.refresh(s);
      if (fits && routes.cost < before - gain) break;
      for (const each of stretch) routes.unlink(each);
      stretch.reduce((at, each) => (routes.link(each, s, at), each), after);
      routes.refresh(t);
      if (s !== t) routes.refresh(s);
    }
  }
}
