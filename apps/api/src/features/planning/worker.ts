import { parentPort, workerData } from 'node:worker_threads';
import { type Choice, choices, type Plan, plan, type PlanProblem } from '@countercheck/planning';
import { planBetween, planExactly } from '@countercheck/planning/exact';

export interface PlanTask {
  problem: PlanProblem;
  milliseconds: number;
}

export type PlanSaid =
  { part: number } | { plan: Plan; proved: boolean; bound: number | null; choices: Choice[] };

/** What is small enough is solved to the end; larger cases keep what the search has found. */
const exactLimits = { mostVisits: 14, mostChains: 40_000, seconds: 5 };

const { problem, milliseconds } = workerData as PlanTask;
const port = parentPort!;
const say = (said: PlanSaid) => port.postMessage(said);
const said = (best: Plan, proved: boolean, bound: number) =>
  say({ plan: best, proved, bound, choices: choices(problem, best) });

const movable = problem.visits.filter(({ fixed }) => !fixed).length;
const small = movable <= exactLimits.mostVisits;
/** The search is half of the work, what no plan undercuts the other half. */
const search = (iterations: number) =>
  plan(problem, { iterations, milliseconds, onProgress: ({ part }) => say({ part: part / 2 }) });

const found = search(small ? 2_000 : 500_000);
const exact = small ? await planExactly(problem, exactLimits) : null;
if (exact?.proved) {
  const best = exact.plan.cost < found.cost - 1e-6 ? exact.plan : found;
  said(best, true, Math.min(exact.bound, best.cost));
} else {
  // A small case with too many possibilities is searched as long as was asked.
  const longer = small ? search(500_000) : found;
  const {
    plan: best,
    bound,
    proved,
  } = await planBetween(problem, longer.cost < found.cost ? longer : found, {
    milliseconds,
    onProgress: (part) => say({ part: (1 + part) / 2 }),
  });
  said(best, proved, bound);
}
