import type { Core } from '../solver/core.ts';
import { Routes } from '../solver/routes.ts';
import type { Column } from './enumerate.ts';

/**
 * The columns that a solution of the model chooses, as a plan under work; of shifts that are alike each takes one.
 * Null when they do not fit after all, which is a matter of rounding.
 */
export function chosenRoutes(
  core: Core,
  columns: readonly Column[],
  values: Record<string, { Primal?: number }>,
): Routes | null {
  const routes = new Routes(core);
  const used = new Set<number>();
  for (const { shift, visits } of columns.filter((_, i) => (values[`x${i}`]?.Primal ?? 0) > 0.5)) {
    const s = core.alike.findIndex((each, i) => each === shift && !used.has(i));
    if (s < 0 || visits.some((v) => routes.shift[v]! >= 0)) return null;
    used.add(s);
    visits.reduce((after, v) => (routes.link(v, s, after), v), core.n + 2 * s);
    if (!routes.refresh(s)) return null;
  }
  return routes;
}

/** What stands outside a plan from its beginning, because it is fixed where it cannot be, costs the same in every plan. */
export const outsideCost = (core: Core, begun: Routes): number =>
  core.problem.visits.reduce(
    (sum, { fixed }, v) => sum + (fixed && begun.shift[v]! < 0 ? core.leaveOut[v]! : 0),
    0,
  );
