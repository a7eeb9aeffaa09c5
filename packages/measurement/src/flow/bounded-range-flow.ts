import type { Interval } from '../instruments/bounded-reading.ts';
import { type Checked, computed } from '../outcome.ts';
import type { InstrumentFacts } from '../types.ts';
import { plainNumber } from '../units/round.ts';
import { type FlowWithStep, rangeFlow } from './range-flow.ts';

export type BoundedFlow =
  ({ kind: 'read' } & FlowWithStep) | ({ kind: 'below-window' | 'above-window'; words: string } & Interval);

/**
 * As `rangeFlow`, but a pressure outside the range's window gives what can be said without extrapolating: below it
 * the flow lies between 0 and the flow at the window's lower end, above it at that of the upper end or beyond (cfm).
 * Enough to tell a fan that moves next to nothing from one that moves what it must; not a result to be reported.
 * Problems: those of `rangeFlow` except `below-range` and `above-range`; zero pressure stays refused, because a tube
 * that is off shows it too. Never throws. Source: flow grows with the device's pressure (power law).
 */
export function boundedRangeFlow(
  instrument: InstrumentFacts,
  range: string,
  devicePressure: number,
): Checked<BoundedFlow> {
  const found = rangeFlow(instrument, range, devicePressure);
  if (found.ok) return computed({ kind: 'read', ...found.value });
  const { code } = found.problem;
  if (code !== 'below-range' && code !== 'above-range') return found;
  const below = code === 'below-range';
  const edge = rangeFlow(instrument, range, edgeOf(instrument, range, below));
  if (!edge.ok) return edge;
  const { flow } = edge.value;
  return computed({
    kind: below ? 'below-window' : 'above-window',
    ...(below ? { low: 0, high: flow } : { low: flow, high: null }),
    words: `${found.problem.message} All that is known is: ${below ? 'at most' : 'at least'} ${plainNumber(flow, 1)} cfm.`,
  });
}

function edgeOf(instrument: InstrumentFacts, range: string, lower: boolean): number {
  const calibration = instrument.ranges.find((candidate) => candidate.range === range);
  const pressures = calibration?.table?.map(({ pressure }) => pressure) ?? [];
  if (lower) return Math.max(calibration?.minPa ?? NaN, ...end(pressures, Math.min));
  return Math.min(calibration?.maxPa ?? NaN, ...end(pressures, Math.max));
}

function end(pressures: number[], pick: (...values: number[]) => number): number[] {
  return pressures.length === 0 ? [] : [pick(...pressures)];
}
