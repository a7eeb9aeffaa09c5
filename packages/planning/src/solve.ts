import type { PlanProblem } from './model/problem.ts';
import { refuseNonsense } from './model/refuse.ts';
import type { Plan } from './solution/plan.ts';
import { presented } from './solution/present.ts';
import { construct } from './solver/construct.ts';
import { compile } from './solver/core.ts';
import { search, type SearchLimits } from './solver/search.ts';
import { begin } from './solver/begin.ts';

const usualLimits: SearchLimits = {
  iterations: 20_000,
  milliseconds: null,
  seed: 1,
  onProgress: null,
};

/**
 * Plans who goes where in which order: a first plan by insertion with regret, then adaptive large neighbourhood
 * search. What was promised is where it was promised to begin with. The plan is always feasible; what does not
 * fit is left out with its reason. With a bound on iterations alone, the same problem and seed give the same
 * plan. Times in minutes since the first midnight of the plan. Throws a RangeError for a problem that means
 * nothing (see `refuseNonsense`). A progress callback that gives false ends the search with the best plan so far.
 */
export function plan(problem: PlanProblem, limits: Partial<SearchLimits> = {}): Plan {
  const began = performance.now();
  refuseNonsense(problem);
  const core = compile(problem);
  const { routes, closed } = begin(core);
  construct(routes);
  const { best, iterations } = search(core, routes, { ...usualLimits, ...limits }, began);
  return { ...presented(best), closed, iterations };
}
