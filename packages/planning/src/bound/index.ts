import loadHighs, { type HighsLinearSolutionRow } from 'highs';
import type { PlanProblem } from '../model/problem.ts';
import { refuseNonsense } from '../model/refuse.ts';
import type { Plan } from '../solution/plan.ts';
import { presented } from '../solution/present.ts';
import { begin } from '../solver/begin.ts';
import { compile } from '../solver/core.ts';
import { chosenRoutes, outsideCost } from '../exact/chosen.ts';
import { linearModel } from '../exact/model.ts';
import { Columns } from './columns.ts';
import { bestChains, type PricedChain } from './chains.ts';
import { between, dualsOf, priceOfAll, pricesOf, type Duals } from './duals.ts';
import { memoryOf } from './memory.ts';

export interface Bounded {
  /** the plan that was given, or a cheaper one that was found on the way */
  plan: Plan;
  /** no plan costs less */
  bound: number;
  /** the plan was proved to cost least */
  proved: boolean;
  /** how often all days were looked at */
  rounds: number;
}

export interface BoundLimits {
  /** for the bound; a last choice among the days found may take half as long again */
  milliseconds: number;
  /** told now and then how much of the time is spent, 0 … 1 */
  onProgress?: (part: number) => void;
}

/** How many chains of a shift go into the model each time, how near the bound has to come, and how much of the old prices is kept. */
const chainsAtOnce = 30;
const nearEnough = 1e-6;
const keptPart = 0.4;

/**
 * A plan between what it costs and what no plan undercuts. The bound is Lagrange's: with any prices for making each
 * visit (none above the cost of leaving it out) and for minutes above a share, a plan costs at least all prices
 * together and, for every day, the least that a chain of visits costs beyond its prices. The prices come from the model
 * of `planExactly` with the chains found so far, solved by HiGHS; new chains are looked for with prices between those
 * and the best so far (Wentges, International Transactions in Operational Research 4(2), 1997; from memory). Chains
 * may forget (see `memoryOf`), and no promise is late for them: both only make them cheaper. So the bound holds
 * whenever the time ends; as long as not even one look at all days was finished, it is that of the ways that no plan
 * can avoid. Costs in the unit of the weights. Throws as `plan` does.
 */
export async function planBetween(
  problem: PlanProblem,
  given: Plan,
  { milliseconds, onProgress }: BoundLimits,
): Promise<Bounded> {
  refuseNonsense(problem);
  const start = performance.now();
  const deadline = start + milliseconds;
  const core = compile(problem);
  const { routes: begun, closed } = begin(core);
  const outside = outsideCost(core, begun);
  const inside = (v: number) => !core.fixed[v] || begun.shift[v]! >= 0;
  const columns = new Columns(core);
  columns.takePlan(given);
  const memory = memoryOf(core);
  const highs = await loadHighs();
  const days = core.shifts.flatMap((_, s) => (core.alike[s] === s ? [s] : []));
  const sameAs = (s: number) => core.alike.reduce((count, each) => count + Number(each === s), 0);

  const look = (duals: Duals): { chains: Map<number, PricedChain[]>; value: number } | null => {
    const chains = new Map<number, PricedChain[]>();
    let value = priceOfAll(core, duals) + outside;
    const prices = pricesOf(duals);
    for (const s of days) {
      const found = bestChains(core, s, prices, memory, chainsAtOnce, deadline);
      if (!found) return null;
      chains.set(s, found);
      value += sameAs(s) * Math.min(0, found[0]?.reduced ?? 0);
    }
    return { chains, value };
  };

  let bound = Math.max(0, unavoidable(columns, core, outside));
  let centre = columns.pricesOf(given);
  let kept = keptPart;
  let rounds = 0;
  while (performance.now() < deadline) {
    onProgress?.((performance.now() - start) / milliseconds);
    const relaxed = highs.solve(linearModel(core, begun, columns.list, false));
    if (relaxed.Status !== 'Optimal') break;
    const dear = dualsOf(core, relaxed.Rows as HighsLinearSolutionRow[], inside);
    // In the beginning the model knows little and its prices are wild.
    const duals = between(centre, dear, Math.max(kept, 1 - 0.15 * rounds));
    const found = look(duals);
    if (!found) break;
    rounds++;
    if (found.value > bound) {
      bound = found.value;
      centre = duals;
    }
    const value = relaxed.ObjectiveValue + outside;
    if (bound >= Math.min(value, given.cost) - nearEnough * Math.max(1, Math.abs(value))) break;
    let added = 0;
    for (const [s, chains] of found.chains)
      for (const { visits } of chains) if (columns.add(s, visits)) added++;
    // With nothing new at prices that lean on the old ones, those of the model itself are asked.
    if (added === 0 && kept === 0) break;
    kept = added === 0 && rounds > 6 ? 0 : keptPart;
  }
  const better = cheaper();
  const plan = better ?? given;
  const proved = bound >= plan.cost - 1e-4;
  return { plan, rounds, proved, bound: Math.min(bound, plan.cost) };

  /** Whether the chains found make a cheaper plan when they are chosen whole. */
  function cheaper(): Plan | null {
    if (rounds === 0 || bound >= given.cost - 1e-4) return null;
    const whole = columns.whole();
    const found = highs.solve(linearModel(core, begun, whole, true), {
      time_limit: milliseconds / 2000,
      mip_rel_gap: 0,
    });
    if (found.Status !== 'Optimal' && found.Status !== 'Time limit reached') return null;
    const routes = chosenRoutes(core, whole, found.Columns);
    if (!routes || routes.cost > given.cost - 1e-4) return null;
    if (core.shifts.some(({ room }, s) => routes.load[s]! > room)) return null;
    return { ...presented(routes), closed, iterations: given.iterations };
  }
}

/**
 * What every plan costs, whatever its order: each visit is left out, or costs what it does on its best day and the
 * cheapest way that leads to it there.
 */
function unavoidable(columns: Columns, core: ReturnType<typeof compile>, outside: number): number {
  let sum = outside;
  for (let v = 0; v < core.n; v++) sum += columns.leastOf(v);
  return sum;
}
