import type { ClosedDay } from '../solution/plan.ts';
import type { Core } from './core.ts';
import { Routes } from './routes.ts';

/**
 * A plan with what is fixed, and with what was promised as far as it still fits. A day whose fixed visits do not
 * fit together, or that are outside working hours, takes nothing more: what people agreed is not ours to mend.
 */
export function begin(core: Core): { routes: Routes; closed: ClosedDay[] } {
  const { problem, shifts, n } = core;
  const routes = new Routes(core);
  const closed: ClosedDay[] = [];
  const chains = shifts.map(() => [] as { v: number; start: number }[]);
  const promised: { v: number; start: number }[] = [];
  problem.visits.forEach((visit, v) => {
    const s = core.firstShift[v]! < core.firstShift[v + 1]! ? core.shiftsOf[core.firstShift[v]!]! : -1;
    if (visit.fixed && s >= 0) chains[s]!.push({ v, start: visit.fixed.start });
    else if (!visit.fixed && core.promisedShift[v]! >= 0) promised.push({ v, start: visit.promised!.start });
  });
  chains.forEach((chain, s) => {
    chain.sort((a, b) => a.start - b.start);
    chain.reduce((after, { v }) => (routes.link(v, s, after), v), n + 2 * s);
    if (routes.refresh(s)) return;
    for (const { v } of chain) routes.unlink(v);
    routes.refresh(s);
    for (let v = 0; v < n; v++) core.allowed[v * shifts.length + s] = 0;
    closed.push({ rater: problem.raters[shifts[s]!.rater]!.id, day: shifts[s]!.day });
  });
  for (const { v, start } of promised.sort((a, b) => a.start - b.start)) keepPromise(routes, v, start);
  return { routes, closed };
}

function keepPromise(routes: Routes, v: number, start: number): void {
  const { core, next } = routes;
  const s = core.promisedShift[v]!;
  if (!core.allowed[v * core.shifts.length + s]) return;
  let after = core.n + 2 * s;
  const startOf = (u: number) => core.problem.visits[u]!.fixed?.start ?? core.promisedStart[u]!;
  while (next[after]! < core.n && startOf(next[after]!) < start) after = next[after]!;
  routes.link(v, s, after);
  if (routes.refresh(s) && routes.load[s]! <= core.shifts[s]!.room) return;
  routes.unlink(v);
  routes.refresh(s);
}
