import loadHighs from 'highs';
import type { PlanProblem } from '../model/problem.ts';
import { refuseNonsense } from '../model/refuse.ts';
import type { Plan } from '../solution/plan.ts';
import { presented } from '../solution/present.ts';
import { begin } from '../solver/begin.ts';
import { compile } from '../solver/core.ts';
import { chosenRoutes, outsideCost } from './chosen.ts';
import { everyColumn } from './enumerate.ts';
import { linearModel } from './model.ts';

export { type Bounded, planBetween } from '../bound/index.ts';

export interface ExactLimits {
  /** chains of visits that are tried before giving up */
  mostChains: number;
  /** for the whole-number programme; after it the best plan so far counts, unproved */
  seconds: number;
}

export interface ExactPlan {
  plan: Plan;
  /** no plan costs less */
  bound: number;
  /** the plan was proved to cost least */
  proved: boolean;
}

/**
 * The plan that costs least, by choosing among all sets of visits that each shift can do (set partitioning, solved
 * by HiGHS). For small cases only: gives null when there are more than `mostChains` chains to look at, or when
 * no plan was found in time. Throws as `plan` does.
 */
export async function planExactly(problem: PlanProblem, limits: ExactLimits): Promise<ExactPlan | null> {
  refuseNonsense(problem);
  const core = compile(problem);
  const { routes: begun, closed } = begin(core);
  const columns = everyColumn(core, begun, limits.mostChains);
  if (!columns) return null;
  const highs = await loadHighs();
  const relaxed = highs.solve(linearModel(core, begun, columns, false));
  const found = highs.solve(linearModel(core, begun, columns, true), {
    time_limit: limits.seconds,
    mip_rel_gap: 0,
  });
  if (found.Status !== 'Optimal' && found.Status !== 'Time limit reached') return null;
  const routes = chosenRoutes(core, columns, found.Columns);
  if (!routes) return null;
  const proved = found.Status === 'Optimal';
  const plan = { ...presented(routes), closed, iterations: 0 };
  return { plan, proved, bound: proved ? plan.cost : relaxed.ObjectiveValue + outsideCost(core, begun) };
}
