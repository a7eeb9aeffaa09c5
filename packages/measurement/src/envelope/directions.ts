import { type Checked, computed, problem } from '../outcome.ts';
import type { Direction, EnvelopeReading } from './types.ts';

/** A point with the baseline taken off. */
export interface InducedPoint {
  reading: EnvelopeReading;
  label: string;
  index: number;
  /** made by the fan, Pa, without its sign */
  pressure: number;
}

/** Fewest points of one direction that leave a degree of freedom for intervals. */
const fewestPoints = 3;

/** Beyond these nothing is a reading of a house, Pa and cfm: common practice, no published source. */
const highestPlausible = 500;
const largestFlow = 1_000_000;

/**
 * Takes the baseline off every point and sorts the points by direction: below zero the house is depressurised.
 * Problems, each with the point's path: `not-a-number`, `zero-pressure` (the fan changed nothing), `bad-flow` (not
 * above zero), `out-of-plausible-range`, `bad-uncertainty`; `too-few-points` (none, or a direction with fewer than three). Never throws.
 */
export function byDirection(
  points: readonly EnvelopeReading[],
  baseline: number,
): Checked<{ direction: Direction; points: InducedPoint[] }[]> {
  const sets: Record<Direction, InducedPoint[]> = { depressurise: [], pressurise: [] };
  for (const [index, reading] of points.entries()) {
    const label = reading.label || `Point ${index + 1}`;
    const refusal = pointProblem(reading, label, `points.${index}`);
    if (refusal) return refusal;
    const induced = reading.pressure - baseline;
    if (induced === 0)
      return problem(
        `points.${index}.pressure`,
        'zero-pressure',
        `${label} is at the baseline of ${baseline} Pa: the fan changed nothing. Check the tubing and the fan.`,
      );
    if (!(Math.abs(induced) <= highestPlausible)) {
      const message = `The pressure of ${label} is ${induced} Pa without the baseline; no house takes more than ${highestPlausible} Pa.`;
      return problem(`points.${index}.pressure`, 'out-of-plausible-range', message);
    }
    const direction = induced < 0 ? 'depressurise' : 'pressurise';
    sets[direction].push({ reading, label, index, pressure: Math.abs(induced) });
  }
  const found = (['depressurise', 'pressurise'] as const)
    .map((direction) => ({ direction, points: sets[direction] }))
    .filter((set) => set.points.length > 0);
  if (found.length === 0) return problem('points', 'too-few-points', 'There are no points.');
  const short = found.find((set) => new Set(set.points.map(({ pressure }) => pressure)).size < fewestPoints);
  if (!short) return computed(found);
  const message = `The points that ${short.direction} the house lie at fewer than ${fewestPoints} different pressures; a line with an interval needs ${fewestPoints}. Take more points, or use one with an assumed exponent.`;
  return problem('points', 'too-few-points', message);
}

function pointProblem(reading: EnvelopeReading, label: string, path: string) {
  const { pressure, flow, pressureUncertainty = 0, flowUncertainty = 0 } = reading;
  if (!Number.isFinite(pressure))
    return problem(`${path}.pressure`, 'not-a-number', `The pressure of ${label} is not a number.`);
  if (!(flow > 0))
    return problem(`${path}.flow`, 'bad-flow', `The flow of ${label} is ${flow} cfm; it must be above zero.`);
  if (flow > largestFlow) {
    const message = `The flow of ${label} is ${flow} cfm; no fan of a house test gives that.`;
    return problem(`${path}.flow`, 'out-of-plausible-range', message);
  }
  if (![pressureUncertainty, flowUncertainty].every((u) => u >= 0 && u < Infinity))
    return problem(path, 'bad-uncertainty', `An uncertainty of ${label} is not zero or above.`);
  return null;
}
