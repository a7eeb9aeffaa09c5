import type { HighsLinearSolutionRow } from 'highs';
import type { Core } from '../solver/core.ts';
import { never } from '../solver/core.ts';
import type { Prices } from './chains.ts';

/** Prices of what a plan has to keep to, with those of the two steps above a rater's share. */
export interface Duals {
  visit: Float64Array;
  over: Float64Array;
  far: Float64Array;
}

type RowOfModel = Pick<HighsLinearSolutionRow, 'Name' | 'Dual'>;

/** Whether a visit is to be planned at all: what is fixed where it cannot be stands outside every plan. */
export type Inside = (v: number) => boolean;

/**
 * The prices that a relaxed model gives, brought to where they bound a plan: a visit is worth no more than leaving it
 * out costs, and a minute above the share no more than it costs.
 */
export function dualsOf(core: Core, rows: readonly RowOfModel[], inside: Inside): Duals {
  const named = new Map(rows.map(({ Name, Dual }) => [Name, Dual ?? 0]));
  const { overShareMinute, farOverShareMinute } = core.problem.weights;
  const raters = core.problem.raters.length;
  const priced = (name: string, most: number) => Math.min(0, Math.max(-most, named.get(name) ?? 0));
  return {
    visit: Float64Array.from({ length: core.n }, (_, v) => {
      const price = inside(v) ? (named.get(`visit${v}`) ?? 0) : 0;
      return core.fixed[v] ? price : Math.min(price, core.leaveOut[v]!);
    }),
    over: Float64Array.from({ length: raters }, (_, r) => priced(`over${r}`, overShareMinute)),
    far: Float64Array.from({ length: raters }, (_, r) => priced(`far${r}`, farOverShareMinute)),
  };
}

/** Between two prices; any mean of prices that bound a plan bounds it too. */
export function between(one: Duals, other: Duals, part: number): Duals {
  const mean = (a: Float64Array, b: Float64Array) => a.map((each, i) => part * each + (1 - part) * b[i]!);
  return {
    visit: mean(one.visit, other.visit),
    over: mean(one.over, other.over),
    far: mean(one.far, other.far),
  };
}

export const pricesOf = ({ visit, over, far }: Duals): Prices => ({
  visit,
  minute: over.map((each, r) => each + far[r]!),
});

/** What the prices alone say that a plan costs, before the days are looked at. */
export function priceOfAll(core: Core, { visit, over, far }: Duals): number {
  const sum = (values: Float64Array) => values.reduce((total, each) => total + each, 0);
  return core.fairShare.reduce(
    (total, fair, r) => (fair === never ? total : total + fair * (over[r]! + 1.25 * far[r]!)),
    sum(visit),
  );
}
