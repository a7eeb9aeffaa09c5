import { type Checked, computed, problem } from '../outcome.ts';
import type { Step } from '../types.ts';
import { convert } from '../units/convert.ts';
import { plainNumber } from '../units/round.ts';
import { airTemperatureSpan } from './density.ts';
import { atmosphereSpan } from './standard-atmosphere.ts';

/** The two forms in which the test method prints its density: metric and inch-pound. They differ by 0.1 %. */
export type DensityForm = 'SI' | 'IP';

/**
 * Density of air as the envelope test method works it out from temperature and altitude, kg/m³.
 * SI: 1.2041 · (1 − 0.0065·E / 293)^5.2553 · 293 / (t + 273), t in °C, E in m.
 * IP: 0.07517 · (1 − 0.0035666·E / 528)^5.2553 · 528 / (t + 460) lb/ft³, t in °F, E in ft; given in kg/m³.
 * @param temperature °F @param altitude ft @param form which of the two; never mix them in one result
 * Problems: `temperature-out-of-range`, `altitude-out-of-range` (no numbers fall here too). Never throws.
 * Source: ASTM E779-10, appendix X1 (from memory); the vectors of the tests were computed independently from the
 * formulas as remembered, so they do not show that the standard is remembered rightly. `airDensityAtAltitude` rests
 * on the standard atmosphere instead and is 0.3 % lower at 1,600 m.
 */
export function methodAirDensity(
  temperature: number,
  altitude: number,
  form: DensityForm,
): Checked<{ density: number; step: Step }> {
  if (!(temperature >= airTemperatureSpan.low && temperature <= airTemperatureSpan.high)) {
    const span = `${airTemperatureSpan.low} and ${airTemperatureSpan.high} °F`;
    const message = `The temperature is ${temperature} °F; it must lie between ${span}.`;
    return problem('temperature', 'temperature-out-of-range', message);
  }
  if (!(altitude >= atmosphereSpan.low && altitude <= atmosphereSpan.high)) {
    const span = `${atmosphereSpan.low} and ${atmosphereSpan.high} ft`;
    return problem(
      'altitude',
      'altitude-out-of-range',
      `The altitude is ${altitude} ft; it must lie between ${span}.`,
    );
  }
  const { density, working } =
    form === 'SI' ? metric(temperature, altitude) : inchPound(temperature, altitude);
  return computed({
    density,
    step: { label: `Air density (E779, ${form} form)`, working, value: density, unit: 'kg/m3' },
  });
}

function metric(temperature: number, altitude: number) {
  const t = convert(temperature, 'degF', 'degC');
  const height = convert(altitude, 'ft', 'm');
  return {
    density: 1.2041 * (1 - (0.0065 * height) / 293) ** 5.2553 * (293 / (t + 273)),
    working: `1.2041 × (1 − 0.0065 × ${plainNumber(height, 1)} m / 293)^5.2553 × 293 / (${plainNumber(t, 2)} °C + 273)`,
  };
}

function inchPound(t: number, height: number) {
  const pounds = 0.07517 * (1 - (0.0035666 * height) / 528) ** 5.2553 * (528 / (t + 460));
  return {
    density: convert(pounds, 'lb/ft3', 'kg/m3'),
    working: `0.07517 lb/ft³ × (1 − 0.0035666 × ${plainNumber(height, 1)} ft / 528)^5.2553 × 528 / (${plainNumber(t, 2)} °F + 460)`,
  };
}
