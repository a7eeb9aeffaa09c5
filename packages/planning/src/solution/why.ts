import type { PlanProblem } from '../model/problem.ts';
import { begin } from '../solver/begin.ts';
import { compile, type Core } from '../solver/core.ts';
import { lookInto, nowhere } from '../solver/insert.ts';
import type { Routes } from '../solver/routes.ts';
import type { Plan } from './plan.ts';

/** Why a visit went to its rater: who else could do it, and what the best of them would cost. */
export interface Choice {
  visit: string;
  /** raters of the plan, this one too, who have what it needs on a day that is open for it */
  able: number;
  /** the best place with another rater while all else stays, and by how much the plan would cost more; null = none has room */
  instead: { rater: string; more: number } | null;
}

/**
 * For every visit of a plan that was not fixed, the next best rater. `more` is in the unit of the weights and from 0
 * up; what a promise costs that would start late is left out of it. Throws as `plan` does for a problem that means nothing.
 */
export function choices(problem: PlanProblem, plan: Plan): Choice[] {
  const core = compile(problem);
  const routes = rebuilt(core, plan);
  const found: Choice[] = [];
  problem.visits.forEach(({ id, fixed }, v) => {
    if (!fixed && routes.shift[v]! >= 0) found.push({ visit: id, ...choice(routes, v) });
  });
  return found;
}

function choice(routes: Routes, v: number): Omit<Choice, 'visit'> {
  const { core } = routes;
  const [own, after, before] = [routes.shift[v]!, routes.previous[v]!, routes.cost];
  const rater = core.shifts[own]!.rater;
  routes.unlink(v);
  routes.refresh(own);
  const able = new Set<number>();
  const best = nowhere();
  for (let i = core.firstShift[v]!; i < core.firstShift[v + 1]!; i++) {
    const s = core.shiftsOf[i]!;
    able.add(core.shifts[s]!.rater);
    if (core.shifts[s]!.rater !== rater) lookInto(routes, v, s, best, 0, null);
  }
  const more = routes.cost - core.leaveOut[v]! + best.cost - before;
  routes.link(v, own, after);
  routes.refresh(own);
  if (best.shift < 0) return { able: able.size, instead: null };
  const other = core.problem.raters[core.shifts[best.shift]!.rater]!.id;
  return { able: able.size, instead: { rater: other, more: Math.max(0, more) } };
}

/** The plan as the search had it. */
function rebuilt(core: Core, plan: Plan): Routes {
  const { routes } = begin(core);
  const { problem, shifts, n } = core;
  const index = new Map(problem.visits.map(({ id }, v) => [id, v]));
  for (let v = 0; v < n; v++) if (routes.shift[v]! >= 0) routes.unlink(v);
  for (const { rater, day, visits } of plan.days) {
    const s = shifts.findIndex((each) => each.day === day && problem.raters[each.rater]!.id === rater);
    visits.reduce(
      (after, { visit }) => {
        const v = index.get(visit)!;
        routes.link(v, s, after);
        return v;
      },
      n + 2 * s,
    );
  }
  for (let s = 0; s < shifts.length; s++) routes.refresh(s);
  return routes;
}
