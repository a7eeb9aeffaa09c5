import { type Checked, computed, problem } from '../outcome.ts';
import type { BaselineSummary } from './types.ts';

/**
 * The pressure between house and outdoors without the fan: the mean of the averages before and after, Pa, with its
 * sign. Readings of one average count as equally long.
 * Problems: `no-baseline` (no readings, or left out by a script), `not-a-number`. Never throws. Source: ISO 9972 and ASTM E779 (from
 * memory).
 */
export function summariseBaseline(
  before: number | readonly number[] | undefined,
  after?: number | readonly number[],
): Checked<BaselineSummary> {
  const first = typeof before === 'number' ? [before] : (before ?? []);
  const last = after === undefined ? [] : typeof after === 'number' ? [after] : after;
  if (first.length === 0) {
    const message =
      'Read the baseline with the fan covered and off, or give 0 where it is taken off the pressures already.';
    return problem('baselineBefore', 'no-baseline', message);
  }
  if (![...first, ...last].every(Number.isFinite))
    return problem('baselineBefore', 'not-a-number', 'A baseline pressure is not a number.');
  const meanBefore = meanOf(first);
  const meanAfter = last.length === 0 ? null : meanOf(last);
  return computed({
    mean: meanAfter === null ? meanBefore : (meanBefore + meanAfter) / 2,
    before: meanBefore,
    after: meanAfter,
    drift: meanAfter === null ? null : meanAfter - meanBefore,
    deviation: deviationWithin(first, last),
  });
}

function meanOf(readings: readonly number[]): number {
  return readings.reduce((sum, reading) => sum + reading, 0) / readings.length;
}

// About the mean of its own average, so that a drift between the two does not count as unrest.
function deviationWithin(...averages: (readonly number[])[]): number | null {
  const squares = averages.flatMap((readings) =>
    readings.map((reading) => (reading - meanOf(readings)) ** 2),
  );
  const free = averages.reduce((sum, { length }) => sum + Math.max(0, length - 1), 0);
  return free === 0 ? null : Math.sqrt(squares.reduce((sum, square) => sum + square, 0) / free);
}
