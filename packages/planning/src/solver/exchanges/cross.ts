import type { Neighbours } from '../neighbours.ts';
import type { Routes } from '../routes.ts';
import { allAllowed, gain, near, withinRoom } from './moves.ts';

/** Exchanges the ends of two shifts, so that a visit is followed by one of its neighbours (2-opt*). */
export function cross(routes: Routes, { width, list }: Neighbours): void {
  const { core, next, previous, shift } = routes;
  const { n } = core;
  for (let v = 0; v < n; v++) {
    for (let i = 0; i < Math.min(near, width); i++) {
      const u = list[v * width + i]!;
      const [s, t] = [shift[v]!, shift[u]!];
      if (s < 0 || t < 0 || s === t) continue;
      const [onward, before] = [next[v]!, previous[u]!];
      const joined = routes.way(v, u) + (before < n || onward < n ? wayOver(routes, before, onward) : 0);
      if (joined >= routes.way(v, onward) + routes.way(before, u) - gain) continue;
      tryCross(routes, v, u, s, t);
    }
  }
}

/** The way between two ends of different shifts, which `way` would take for an empty one. */
function wayOver({ core }: Routes, from: number, to: number): number {
  return core.cost[core.place[from]! * core.places + core.place[to]!]!;
}

function tailFrom({ core, next }: Routes, first: number): number[] {
  const tail: number[] = [];
  for (let each = first; each < core.n; each = next[each]!) tail.push(each);
  return tail;
}

function tryCross(routes: Routes, v: number, u: number, s: number, t: number): void {
  const { next, previous } = routes;
  const before = previous[u]!;
  const ofS = tailFrom(routes, next[v]!);
  const ofT = tailFrom(routes, u);
  if (!allAllowed(routes, ofS, t) || !allAllowed(routes, ofT, s)) return;
  const cost = routes.cost;
  const relink = (toS: readonly number[], toT: readonly number[]) => {
    for (const each of [...ofS, ...ofT]) routes.unlink(each);
    toS.reduce((at, each) => (routes.link(each, s, at), each), v);
    toT.reduce((at, each) => (routes.link(each, t, at), each), before);
    const fits = routes.refresh(s);
    return routes.refresh(t) && fits;
  };
  const fits = relink(ofT, ofS) && withinRoom(routes, s) && withinRoom(routes, t);
  if (fits && routes.cost < cost - gain) return;
  relink(ofS, ofT);
}
