import { type Checked, computed, problem } from '../outcome.ts';
import { correlationProblem } from './correlation.ts';
import { coverageFactor } from './coverage.ts';
import { sensitivity } from './sensitivity.ts';

/** One quantity that a result is computed from, in any unit. */
export interface UncertainInput {
  value: number;
  /** standard uncertainty in the same unit, zero or more */
  u: number;
  /** degrees of freedom of `u`, above zero; without them it is taken as exactly known */
  df?: number;
  /** ∂f/∂x at the values given, where it is known; otherwise it is found by differences */
  derivative?: (values: readonly number[]) => number;
  /** for the reader of the budget */
  label?: string;
}

export interface Propagated {
  value: number;
  standardUncertainty: number;
  /** effective; Infinity when no input limits them */
  degreesOfFreedom: number;
  /** at 95 % */
  coverageFactor: number;
  expandedUncertainty: number;
  /** one line for each input, in order: ∂f/∂x, its part |∂f/∂x| · u, and that part's share of the variance
   * when nothing is correlated */
  budget: { label: string; sensitivity: number; contribution: number; share: number }[];
}

/**
 * Propagates standard uncertainties through a function of several quantities:
 * u² = Σᵢ Σⱼ cᵢ · cⱼ · uᵢ · uⱼ · r(i, j) with cᵢ = ∂f/∂xᵢ, effective degrees of freedom by Welch and
 * Satterthwaite u⁴ / Σ (cᵢuᵢ)⁴ / νᵢ, and U = k · u at 95 %.
 * The formula of Welch and Satterthwaite does not hold for correlated quantities; with a correlation the lowest
 * degrees of freedom of any input count, which is exact when they come from one fit.
 * @param fn of the values, in the order of `inputs`; must be smooth within a few u
 * @param correlation r(i, j), from −1 to 1, symmetric with ones on the diagonal; none when left out
 * Problems: `no-inputs`, `not-a-number` (a value, or the function at or near the values), `negative-uncertainty`,
 * `bad-degrees-of-freedom`, `bad-correlation`. Never throws unless `fn` does. Source: JCGM 100:2008, 5.1.2,
 * 5.2.2, G.4.1 (from memory); its examples H.1 and H.2, two of the EURACHEM/CITAC guide and two of NIST TN 1900
 * are tests (docs/sources.md, Measurement 15).
 */
export function propagate(
  fn: (values: readonly number[]) => number,
  inputs: readonly UncertainInput[],
  correlation?: readonly (readonly number[])[],
): Checked<Propagated> {
  const refusal = inputProblem(inputs) ?? correlationProblem(inputs.length, correlation);
  if (refusal) return refusal;
  const values = inputs.map(({ value }) => value);
  const value = fn(values);
  const slopes = inputs.map((input, i) => input.derivative?.(values) ?? sensitivity(fn, values, i, input.u));
  if (![value, ...slopes].every(Number.isFinite))
    return problem('inputs', 'not-a-number', 'The function gives no number at or near these values.');
  const parts = inputs.map(({ u }, i) => slopes[i]! * u);
  const squares = parts.map((part) => part * part);
  const alone = squares.reduce((sum, square) => sum + square, 0);
  const variance = correlation ? Math.max(0, quadratic(parts, correlation)) : alone;
  const standardUncertainty = Math.sqrt(variance);
  const degreesOfFreedom = correlation
    ? Math.min(...inputs.map(({ df = Infinity }) => df))
    : welchSatterthwaite(squares, inputs);
  const k = coverageFactor(degreesOfFreedom);
  return computed({
    value,
    standardUncertainty,
    degreesOfFreedom,
    coverageFactor: k,
    expandedUncertainty: k * standardUncertainty,
    budget: inputs.map(({ label = '' }, i) => ({
      label,
      sensitivity: slopes[i]!,
      contribution: Math.abs(parts[i]!),
      share: alone === 0 ? 0 : squares[i]! / alone,
    })),
  });
}

/** The problem of inputs that are no numbers or have impossible uncertainties, or null. Never throws. */
export function inputProblem(inputs: readonly UncertainInput[]): ReturnType<typeof problem> | null {
  if (inputs.length === 0) return problem('inputs', 'no-inputs', 'There is nothing to compute from.');
  for (const [i, { value, u, df = Infinity, label }] of inputs.entries()) {
    const name = label ?? `Input ${i + 1}`;
    const path = `inputs.${i}`;
    if (!Number.isFinite(value) || !Number.isFinite(u))
      return problem(path, 'not-a-number', `${name} or its uncertainty is not a number.`);
    if (u < 0) return problem(path, 'negative-uncertainty', `${name} has an uncertainty of ${u}.`);
    if (!(df > 0))
      return problem(path, 'bad-degrees-of-freedom', `${name} has ${df} degrees of freedom; above zero.`);
  }
  return null;
}

function quadratic(parts: number[], correlation: readonly (readonly number[])[]): number {
  let sum = 0;
  for (const [i, a] of parts.entries())
    for (const [j, b] of parts.entries()) sum += a * b * correlation[i]![j]!;
  return sum;
}

function welchSatterthwaite(squares: number[], inputs: readonly UncertainInput[]): number {
  const variance = squares.reduce((sum, square) => sum + square, 0);
  const loss = squares.reduce((sum, square, i) => sum + square ** 2 / (inputs[i]!.df ?? Infinity), 0);
  return loss === 0 ? Infinity : variance ** 2 / loss;
}
