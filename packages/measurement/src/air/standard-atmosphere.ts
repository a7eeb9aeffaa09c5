import { type Checked, computed, problem } from '../outcome.ts';
import type { Step } from '../types.ts';
import { convert } from '../units/convert.ts';
import { plainNumber } from '../units/round.ts';

/** Pressure of the standard atmosphere at sea level, Pa, and its fall with height (ISO 2533, from memory). */
const seaLevelPressure = 101325;
const seaLevelKelvin = 288.15;
const lapsePerMetre = 0.0065;
const standardGravity = 9.80665;
const gasConstant = 287.05287;

/** Heights between which the formula is that of the standard atmosphere, ft: its lowest layer, −2 to 11 km. */
export const atmosphereSpan = { low: -6561, high: 36089 } as const;

/**
 * Barometric pressure of the standard atmosphere at a height: p = 101,325 · (1 − 0.0065·H / 288.15)^5.25588 with H
 * in metres. What a barometer shows on a day may lie 3 % to either side; a reading is better than this.
 * @param altitude height above sea level, ft, from `atmosphereSpan.low` to `.high`
 * @returns Pa, with the line of working. Problems: `not-a-number`, `altitude-out-of-range`. Never throws.
 * Source: ISO 2533 (from memory); its values from −500 to 10,000 m and from 1,000 to 10,000 ft as printed in
 * ASHRAE Handbook Fundamentals 2017, chapter 1, seen through the tests of an open psychrometric library.
 */
export function standardPressure(altitude: number): Checked<{ pressure: number; step: Step }> {
  if (!Number.isFinite(altitude)) {
    return problem('altitude', 'not-a-number', 'The altitude is not a number.');
  }
  const { low, high } = atmosphereSpan;
  if (altitude < low || altitude > high) {
    const message = `The altitude is ${plainNumber(altitude)} ft; the formula holds from ${low} to ${high} ft.`;
    return problem('altitude', 'altitude-out-of-range', message);
  }
  const height = convert(altitude, 'ft', 'm');
  const power = standardGravity / (gasConstant * lapsePerMetre);
  const pressure = seaLevelPressure * (1 - (lapsePerMetre * height) / seaLevelKelvin) ** power;
  const working = `101325 × (1 − 0.0065 × ${plainNumber(height, 1)} m / 288.15)^5.2559`;
  return computed({
    pressure,
    step: { label: 'Barometric pressure of the standard atmosphere', working, value: pressure, unit: 'Pa' },
  });
}
