import { type Checked, computed, problem } from '../outcome.ts';

/**
 * Leakage per 100 ft² of conditioned floor: flow × 100 / area.
 * @param flow cfm, zero or more @param floorArea ft², above zero
 * Problems: `bad-flow`, `bad-area`. Never throws. Source: example file of the public data format for home
 * energy ratings, 123 cfm over 2,400 ft² = 5.125 (docs/sources.md, Measurement 4).
 */
export function cfmPer100ft2(flow: number, floorArea: number): Checked<number> {
  if (!isFlow(flow)) return problem('flow', 'bad-flow', `The flow is ${flow} cfm; it must be zero or more.`);
  if (!isAboveZero(floorArea)) {
    return problem('floorArea', 'bad-area', `The floor area is ${floorArea} ft²; it must be above zero.`);
  }
  return computed((flow * 100) / floorArea);
}

/**
 * Air changes per hour from a flow and the volume it goes through: flow × 60 / volume. With the flow at 50 Pa
 * this is ACH50.
 * @param flow cfm, zero or more @param volume ft³, above zero
 * Problems: `bad-flow`, `bad-volume`. Never throws. Source: n50 = V50 / V of ISO 9972 as seen on a page of a
 * European airtightness platform; 1,300 cfm in 19,200 ft³ from the example file of the public data format
 * (docs/sources.md, Measurement 4).
 */
export function airChangesPerHour(flow: number, volume: number): Checked<number> {
  if (!isFlow(flow)) return problem('flow', 'bad-flow', `The flow is ${flow} cfm; it must be zero or more.`);
  if (!isAboveZero(volume)) {
    return problem('volume', 'bad-volume', `The volume is ${volume} ft³; it must be above zero.`);
  }
  return computed((flow * 60) / volume);
}

function isFlow(value: number): boolean {
  return value >= 0 && value < Infinity;
}

function isAboveZero(value: number): boolean {
  return value > 0 && value < Infinity;
}
