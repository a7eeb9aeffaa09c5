import { parentPort, workerData } from 'node:worker_threads';
import { type Plan, plan, type PlanProblem } from '@countercheck/planning';
import { planExactly } from '@countercheck/planning/exact';

export interface PlanTask {
  problem: PlanProblem;
  milliseconds: number;
}

export type PlanSaid = { part: number } | { plan: Plan; proved: boolean; bound: number | null };

/** What is small enough is solved to the end; larger cases keep what the search has found. */
const exactLimits = { mostVisits: 14, mostChains: 40_000, seconds: 5 };

const { problem, milliseconds } = workerData as PlanTask;
const port = parentPort!;
const say = (said: PlanSaid) => port.postMessage(said);

const movable = problem.visits.filter(({ fixed }) => !fixed).length;
const small = movable <= exactLimits.mostVisits;
const search = (iterations: number) =>
  plan(problem, { iterations, milliseconds, onProgress: ({ part }) => say({ part }) });

let found = search(small ? 2_000 : 500_000);
const exact = small ? await planExactly(problem, exactLimits) : null;
if (exact && exact.plan.cost < found.cost - 1e-6) found = exact.plan;
// A small case with too many possibilities is searched as long as was asked.
if (small && !exact?.proved) {
  const longer = search(500_000);
  if (longer.cost < found.cost - 1e-6) found = longer;
}
say({ plan: found, proved: exact?.proved ?? false, bound: exact?.bound ?? null });
