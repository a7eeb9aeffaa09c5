import { cross } from './exchanges/cross.ts';
import { eject } from './exchanges/eject.ts';
import { relocate } from './exchanges/relocate.ts';
import { moveStretches } from './exchanges/stretches.ts';
import { swap } from './exchanges/swap.ts';
import type { Neighbours } from './neighbours.ts';
import type { Routes } from './routes.ts';

/** Exchanges until none makes the plan cheaper: moves of one to three visits, swaps, crossings, ejections. */
export function improve(routes: Routes, neighbours: Neighbours): void {
  for (let rounds = 0; rounds < 50; rounds++) {
    const before = routes.cost;
    relocate(routes);
    for (const length of [2, 3]) moveStretches(routes, neighbours, length);
    swap(routes, neighbours);
    cross(routes, neighbours);
    eject(routes);
    if (routes.cost > before - 1e-7) return;
  }
}
