import type { Column } from '../exact/enumerate.ts';
import type { Plan } from '../solution/plan.ts';
import type { Core } from '../solver/core.ts';
import { Routes } from '../solver/routes.ts';
import type { Duals } from './duals.ts';

/** The chains of visits that the model of a bound has so far. Their costs leave out that a promise starts late. */
export class Columns {
  readonly list: Column[] = [];
  readonly #known = new Set<string>();
  readonly #core: Core;

  constructor(core: Core) {
    this.#core = core;
  }

  #cost(s: number, visits: readonly number[]): number {
    const { n, place, places, cost, extra, shifts } = this.#core;
    let sum = 0;
    let at = place[n + 2 * s]!;
    for (const v of visits) {
      sum += cost[at * places + place[v]!]! + extra[v * shifts.length + s]!;
      at = place[v]!;
    }
    return visits.length === 0 ? 0 : sum + cost[at * places + place[n + 2 * s + 1]!]!;
  }

  /** False when it is there already. */
  add(s: number, visits: readonly number[]): boolean {
    const key = `${s}:${visits.join()}`;
    if (this.#known.has(key)) return false;
    this.#known.add(key);
    this.list.push({ shift: s, visits: [...visits], cost: this.#cost(s, visits) });
    return true;
  }

  #chainsOf({ days }: Plan): { s: number; visits: number[] }[] {
    const { problem, shifts } = this.#core;
    const number = new Map(problem.visits.map(({ id }, v) => [id, v]));
    return days.map(({ rater, day, visits }) => ({
      s: shifts.findIndex((each) => problem.raters[each.rater]!.id === rater && each.day === day),
      visits: visits.map(({ visit }) => number.get(visit)!),
    }));
  }

  takePlan(plan: Plan): void {
    for (const { s, visits } of this.#chainsOf(plan)) this.add(this.#core.alike[s]!, visits);
  }

  /** The days of a plan, their costs shared out among their visits: each bears its ways half, and what it is where it is. */
  pricesOf(plan: Plan): Duals {
    const { n, place, places, cost, extra, leaveOut, fixed, shifts, problem } = this.#core;
    const visit = Float64Array.from({ length: n }, (_, v) => (fixed[v] ? 0 : leaveOut[v]!));
    for (const { s, visits } of this.#chainsOf(plan)) {
      const stops = [place[n + 2 * s]!, ...visits.map((v) => place[v]!), place[n + 2 * s + 1]!];
      const way = (i: number) => cost[stops[i]! * places + stops[i + 1]!]!;
      const last = visits.length - 1;
      visits.forEach((v, i) => {
        const ways = way(i) * (i === 0 ? 1 : 0.5) + way(i + 1) * (i === last ? 1 : 0.5);
        const price = ways + extra[v * shifts.length + s]!;
        visit[v] = fixed[v] ? price : Math.min(price, leaveOut[v]!);
      });
    }
    const raters = problem.raters.length;
    return { visit, over: new Float64Array(raters), far: new Float64Array(raters) };
  }

  /** The least that one visit adds to any plan. */
  leastOf(v: number): number {
    const { n, place, places, cost, extra, leaveOut, allowed, shifts, fixed } = this.#core;
    let least = fixed[v] ? Infinity : leaveOut[v]!;
    for (let s = 0; s < shifts.length; s++) {
      if (!allowed[v * shifts.length + s]) continue;
      let way = cost[place[n + 2 * s]! * places + place[v]!]!;
      for (let u = 0; u < n; u++)
        if (u !== v && allowed[u * shifts.length + s])
          way = Math.min(way, cost[place[u]! * places + place[v]!]!);
      least = Math.min(least, extra[v * shifts.length + s]! + way);
    }
    return Number.isFinite(least) ? least : 0;
  }

  /** Those that a plan can have: no visit twice; with what late promises cost. */
  whole(): Column[] {
    const core = this.#core;
    const routes = new Routes(core);
    return this.list.flatMap((column) => {
      const { shift: s, visits, cost } = column;
      if (new Set(visits).size < visits.length) return [];
      visits.reduce((after, v) => (routes.link(v, s, after), v), core.n + 2 * s);
      const fits = routes.refresh(s);
      const late = routes.late[s]!;
      for (const v of visits) routes.unlink(v);
      routes.refresh(s);
      return fits ? [{ ...column, cost: cost + late }] : [];
    });
  }
}
