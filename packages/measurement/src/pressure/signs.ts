import { type Checked, computed, problem } from '../outcome.ts';

/**
 * The size of a pressure without its sign, in the same unit; never −0. NaN stays NaN. Never throws.
 */
export function magnitude(pressure: number): number {
  return Math.abs(pressure);
}

/**
 * A measured pressure as a share of the reported one, both by magnitude and in one unit:
 * |measured| / |reported|, dimensionless (1.08 = 108 %).
 * Problems: `not-a-number`, `zero-reported` (nothing can be a share of zero). Never throws. Source: common
 * practice, no published source.
 */
export function ratioToReported(measured: number, reported: number): Checked<number> {
  if (!Number.isFinite(measured))
    return problem('measured', 'not-a-number', 'The measured pressure is not a number.');
  if (!Number.isFinite(reported))
    return problem('reported', 'not-a-number', 'The reported pressure is not a number.');
  if (reported === 0) {
    return problem(
      'reported',
      'zero-reported',
      'The reported pressure is 0; ask the installer for the figure.',
    );
  }
  return computed(magnitude(measured) / magnitude(reported));
}
