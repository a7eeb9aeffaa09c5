import { type Entry, optional, required, valuePath } from '../entry/part.ts';
import { type Checked, computed, problem } from '../outcome.ts';
import { inducedPressure } from '../pressure/baseline.ts';
import type { Step } from '../types.ts';
import { plainNumber } from '../units/round.ts';
import { fanFlow } from './fan-flow.ts';

/** One point of an envelope test after the baseline is taken off. */
export interface EnvelopePoint {
  label: string;
  /** Pa, with its sign */
  pressure: number;
  /** cfm */
  flow: number;
  /** path of the house pressure in the raw reading */
  path: string;
  steps: Step[];
}

/** The baseline pressures entered, Pa: before, and after when it was read. */
export function baselinesOf(entry: Entry): number[] {
  const after = optional(entry, 'baselineAfter');
  return [required(entry, 'baselineBefore'), ...(after === null ? [] : [after])];
}

/**
 * The points of an envelope test: house pressure less the mean baseline (Pa), and the fan's flow (cfm).
 * Problems: those of `fanFlow`, `zero-pressure` (the fan changed nothing). Never throws.
 */
export function envelopePoints(entry: Entry): Checked<EnvelopePoint[]> {
  const baselines = baselinesOf(entry);
  const points: EnvelopePoint[] = [];
  for (const row of entry.rows) {
    const fan = fanFlow(row, entry.instrument);
    if (!fan.ok) return fan;
    const reading = required(row, 'housePressure');
    const pressure = inducedPressure(reading, baselines);
    const path = valuePath(row, 'housePressure');
    if (pressure === 0) {
      return problem(
        path,
        'zero-pressure',
        'The house is at its baseline pressure: the fan changed nothing. Check the tubing and the fan.',
      );
    }
    const working = `${plainNumber(reading)} − mean(${baselines.map((baseline) => plainNumber(baseline)).join(', ')})`;
    const step: Step = {
      label: `${row.label}: pressure made by the fan`,
      working,
      value: pressure,
      unit: 'Pa',
    };
    points.push({
      label: row.label,
      pressure,
      flow: fan.value.flow,
      path,
      steps: [...fan.value.steps, step],
    });
  }
  return computed(points);
}

/** The points that depressurise the house and those that pressurise it; a direction without points is left out. */
export function directionsOf(points: EnvelopePoint[]): EnvelopePoint[][] {
  const below = points.filter(({ pressure }) => pressure < 0);
  const above = points.filter(({ pressure }) => pressure > 0);
  return [below, above].filter(({ length }) => length > 0);
}

/** How many different pressures the points lie at. */
export function differentPressures(points: EnvelopePoint[]): number {
  return new Set(points.map(({ pressure }) => pressure)).size;
}

/** The highest pressure over the lowest, without their signs. */
export function spreadOf(points: EnvelopePoint[]): number {
  const pressures = points.map(({ pressure }) => Math.abs(pressure));
  return Math.max(...pressures) / Math.min(...pressures);
}
