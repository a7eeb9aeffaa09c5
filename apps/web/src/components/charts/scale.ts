import { linearTicks, logTicks } from './ticks.ts';

/** Where a value stands on an axis, and the round numbers to write beside it. */
export interface Scale {
  at(value: number): number;
  low: number;
  high: number;
  ticks: readonly number[];
}

/** The interval of the drawing that an axis takes, in pixels; downwards for the upright one. */
export type Span = readonly [from: number, to: number];

export function linearScale(low: number, high: number, [from, to]: Span, count?: number): Scale {
  const width = high - low || 1;
  const at = (value: number) => from + ((value - low) / width) * (to - from);
  return { at, low, high, ticks: linearTicks(low, high, count) };
}

/** Equal ratios take equal lengths; what is zero or less has no place and lands on the lower end. */
export function logScale(low: number, high: number, [from, to]: Span): Scale {
  const width = Math.log(high / low) || 1;
  const at = (value: number) => from + (Math.log(Math.max(value, low / 1e6) / low) / width) * (to - from);
  return { at, low, high, ticks: logTicks(low, high) };
}

/** From the smallest to the largest of positive numbers, with room on both sides; null when there are none. */
export function logReach(values: readonly number[], room = 0.12): [low: number, high: number] | null {
  const usable = values.filter((value) => value > 0 && Number.isFinite(value));
  if (usable.length === 0) return null;
  const [low, high] = [Math.min(...usable), Math.max(...usable)];
  const factor = (high / low) ** room * (1 + room / 2);
  return [low / factor, high * factor];
}

/** Symmetric about zero, so that above and below can be compared; never empty. */
export function evenReach(
  values: readonly number[],
  least: number,
  room = 0.15,
): [low: number, high: number] {
  const most = Math.max(least, ...values.filter(Number.isFinite).map(Math.abs)) * (1 + room);
  return [-most, most];
}
