import { type Checked, computed } from '../outcome.ts';
import { type StatedUncertainty, statedUncertainty } from '../uncertainty/coverage.ts';

/** One line of the working, in whatever unit the formula is written in. */
export interface WorkingLine {
  label: string;
  /** the formula with the numbers in it */
  working: string;
  value: number;
  unit: string;
}

/** A computed quantity with its uncertainty and its working, in the unit of the formula that was used. The
 * uncertainty is null when that of a measured input is not known. */
export interface Worked<U extends string = string> extends StatedUncertainty {
  value: number;
  unit: U;
  steps: WorkingLine[];
  /** what a reader has to know beside the number, e.g. that a cap was applied */
  remarks: string[];
}

/** What one input adds: the derivative of the result by it, and its standard uncertainty. */
export type Contribution = readonly [derivative: number, standardUncertainty: number | null | undefined];

/**
 * The combined standard uncertainty of independent inputs, u = √Σ(∂f/∂x · u(x))². Null when that of any input
 * is not known or none is given. Never throws. Source: JCGM 100, 5.1.2 (from memory).
 */
export function combined(contributions: readonly Contribution[]): number | null {
  const parts = contributions.map(([derivative, u]) => (typeof u === 'number' ? derivative * u : null));
  if (parts.length === 0 || parts.includes(null)) return null;
  return Math.hypot(...parts.map(Number));
}

/**
 * Puts a result together; the last step carries the value, so that the working ends where the number is.
 * The expanded uncertainty is at 95 % (`statedUncertainty`). Never throws.
 */
export function worked<U extends string>(
  unit: U,
  value: number,
  standardUncertainty: number | null,
  steps: WorkingLine[],
  remarks: string[] = [],
): Worked<U> {
  return { value: value + 0, unit, ...statedUncertainty(standardUncertainty), steps, remarks };
}

/** The same as `worked`, wrapped as an outcome that succeeded, with room for what else the result says. */
export function gaveWorked<U extends string, More extends object>(
  result: Worked<U>,
  more: More,
): Checked<Worked<U> & More> {
  return computed({ ...result, ...more });
}
