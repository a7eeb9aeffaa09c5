import type { Core } from './core.ts';
import { improve } from './improve.ts';
import { neighboursOf } from './neighbours.ts';
import { Random } from './random.ts';
import { Recreation } from './recreate.ts';
import { Routes } from './routes.ts';
import { Ruins } from './ruin.ts';

export interface SearchLimits {
  /** rounds of ruin and recreation; with a seed alone they decide the result */
  iterations: number;
  /** wall-clock bound; with it the result also depends on the machine */
  milliseconds: number | null;
  seed: number;
  /** told now and then; false ends the search with the best plan so far */
  onProgress: ((progress: SearchProgress) => boolean | void) | null;
}

export interface SearchProgress {
  iterations: number;
  /** 0 … 1 of what was allowed */
  part: number;
  cost: number;
  placed: number;
}

const meanTaken = 10;
const blinks = 0.01;
/** How the choice among ruins learns: what they are worth is looked at after so many rounds. */
const lesson = 200;

/**
 * Adaptive large neighbourhood search: ruins a part of the plan, recreates it, and keeps what an annealing
 * schedule accepts. Ruins that led somewhere are chosen more often. A new best plan is improved by exchanges.
 * The time that is allowed counts from `began`.
 */
export function search(
  core: Core,
  start: Routes,
  limits: SearchLimits,
  began: number,
): { best: Routes; iterations: number } {
  const random = new Random(limits.seed);
  const neighbours = neighboursOf(core);
  const [best, current, work] = [start, new Routes(core), new Routes(core)];
  improve(best, neighbours);
  current.become(best);
  const ruins = new Ruins(work, neighbours, random);
  const recreation = new Recreation(work);
  const ways = [
    () => ruins.strings(work, meanTaken),
    () => ruins.scattered(work, meanTaken),
    () => ruins.detours(work, meanTaken),
    () => ruins.wholeShifts(work),
    () => ruins.room(work),
  ];
  const weight = new Float64Array(ways.length).fill(1);
  weight[0] = 4;
  const [earned, used] = [new Float64Array(ways.length), new Float64Array(ways.length)];

  // An arc's cost is what an annealing step should be measured by, whatever the unit of the objective.
  const usual = (best.cost - leftOutCost(best)) / Math.max(1, core.n - best.outside);
  const [hot, cold] = [Math.max(1e-9, usual * 2), Math.max(1e-10, usual * 0.005)];
  let temperature = hot;
  let iterations = 0;
  for (; iterations < limits.iterations; iterations++) {
    if (iterations % 8 === 0) {
      const spent = performance.now() - began;
      const part = Math.max(
        iterations / limits.iterations,
        limits.milliseconds ? spent / limits.milliseconds : 0,
      );
      if (part >= 1) break;
      temperature = hot * (cold / hot) ** part;
      if (iterations % 512 === 0) {
        const progress = { iterations, part, cost: best.cost, placed: core.n - best.outside };
        if (limits.onProgress?.(progress) === false) break;
      }
    }
    const way = choose(weight, random);
    work.become(current);
    ways[way]!();
    ruins.settle(work);
    recreation.run(work, random, blinks);
    used[way] = used[way]! + 1;
    if (work.cost < current.cost - temperature * Math.log(random.next() || 1e-12) - 1e-9) {
      if (work.cost < current.cost - 1e-9) earned[way] = earned[way]! + 1;
      if (work.cost < best.cost - 1e-9) {
        improve(work, neighbours);
        best.become(work);
        earned[way] = earned[way]! + 4;
      }
      current.become(work);
    }
    if (iterations % lesson === lesson - 1) learn(weight, earned, used);
  }
  return { best, iterations };
}

const leftOutCost = (routes: Routes) => {
  let sum = 0;
  for (let i = 0; i < routes.outside; i++) sum += routes.core.leaveOut[routes.left[i]!]!;
  return sum;
};

function choose(weight: Float64Array, random: Random): number {
  let sum = 0;
  for (let i = 0; i < weight.length; i++) sum += weight[i]!;
  let at = random.next() * sum;
  for (let i = 0; i < weight.length - 1; i++) {
    at -= weight[i]!;
    if (at < 0) return i;
  }
  return weight.length - 1;
}

function learn(weight: Float64Array, earned: Float64Array, used: Float64Array): void {
  for (let i = 0; i < weight.length; i++) {
    const worth = used[i]! > 0 ? (10 * earned[i]!) / used[i]! : weight[i]!;
    weight[i] = Math.max(0.1, 0.7 * weight[i]! + 0.3 * worth);
    earned[i] = used[i] = 0;
  }
}
