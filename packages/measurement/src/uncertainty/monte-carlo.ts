import { type Checked, computed, problem } from '../outcome.ts';
import { cholesky, correlationProblem } from './correlation.ts';
import { deviate, type Distribution } from './distributions.ts';
import { inputProblem, type UncertainInput } from './propagate.ts';
import { randomStream } from './random.ts';

export interface DrawnInput extends UncertainInput {
  /** normal when left out; `student-t` uses the input's `df` */
  distribution?: Distribution;
}

export interface Simulated {
  mean: number;
  /** standard deviation of the draws */
  standardUncertainty: number;
  /** the 95 % interval that leaves as much below as above */
  low: number;
  high: number;
  /** the shortest interval that holds 95 % */
  shortest: { low: number; high: number };
  draws: number;
}

const mostDraws = 5_000_000;

/**
 * The distribution of a result by simulation: draws the quantities, computes the result, takes mean, standard
 * deviation and the 95 % intervals, in the unit of the result. The same seed gives the same result.
 * @param seed any number @param draws from 1,000 to 5,000,000
 * @param correlation of normal quantities, as for `propagate`
 * Problems: those of `propagate`, `bad-draws`, `correlated-shape` (a correlation with a quantity that is not
 * normal), `not-a-number` (a draw gave no number). Never throws unless `fn` does. Source: JCGM 101:2008, 7
 * (from memory); its tables 2 and 3 and an example of a national laboratory, seen in the tests of an open
 * uncertainty calculator, are tests (docs/sources.md, Measurement 15).
 */
export function monteCarlo(
  fn: (values: readonly number[]) => number,
  inputs: readonly DrawnInput[],
  seed: number,
  draws: number,
  correlation?: readonly (readonly number[])[],
): Checked<Simulated> {
  const refusal = inputProblem(inputs) ?? correlationProblem(inputs.length, correlation);
  if (refusal) return refusal;
  if (!Number.isInteger(draws) || draws < 1000 || draws > mostDraws)
    return problem('draws', 'bad-draws', `The number of draws is ${draws}; from 1000 to ${mostDraws}.`);
  if (correlation && inputs.some(({ distribution = 'normal' }) => distribution !== 'normal'))
    return problem('correlation', 'correlated-shape', 'Only normal quantities can be drawn correlated.');
  const stream = randomStream(seed);
  const lower = correlation ? cholesky(correlation) : null;
  const results = new Float64Array(draws);
  const units = inputs.map(() => 0);
  const values = inputs.map(() => 0);
  for (let draw = 0; draw < draws; draw++) {
    for (const [i, { distribution = 'normal', df = Infinity }] of inputs.entries())
      units[i] = deviate(distribution, stream, df);
    for (const [i, { value, u }] of inputs.entries())
      values[i] = value + u * (lower ? product(lower[i]!, units) : units[i]!);
    results[draw] = fn(values);
  }
  return summary(results);
}

function product(row: number[], units: number[]): number {
  return row.reduce((sum, weight, i) => sum + weight * units[i]!, 0);
}

function summary(results: Float64Array): Checked<Simulated> {
  const draws = results.length;
  const mean = results.reduce((sum, result) => sum + result, 0) / draws;
  if (!Number.isFinite(mean)) return problem('inputs', 'not-a-number', 'A draw gave no number.');
  const squares = results.reduce((sum, result) => sum + (result - mean) ** 2, 0);
  results.sort();
  const held = Math.round(0.95 * draws);
  const tail = Math.floor((draws - held) / 2);
  let from = 0;
  for (let i = 1; i + held < draws; i++) if (width(results, i, held) < width(results, from, held)) from = i;
  return computed({
    mean,
    standardUncertainty: Math.sqrt(squares / (draws - 1)),
    low: results[tail]!,
    high: results[tail + held]!,
    shortest: { low: results[from]!, high: results[from + held]! },
    draws,
  });
}

function width(sorted: Float64Array, from: number, held: number): number {
  return sorted[from + held]! - sorted[from]!;
}
