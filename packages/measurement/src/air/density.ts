import { type Checked, computed, problem } from '../outcome.ts';
import type { Problem, Step } from '../types.ts';
import { convert } from '../units/convert.ts';
import { type StatedUncertainty, statedUncertainty } from '../uncertainty/coverage.ts';
import { plainNumber } from '../units/round.ts';
import { statedUncertainties, type Uncertainties } from '../working/input.ts';
import { combined } from '../working/worked.ts';
import { standardPressure } from './standard-atmosphere.ts';
import { saturationPressure } from './water-vapor.ts';

/** Gas constant of dry air, J/(kg·K), and of water vapour as its multiple: ASHRAE Fundamentals 2017, chapter 1. */
const dryAirConstant = 287.042;
const vaporRatio = 1.607858;

/** Air of 20 °C and 101,325 Pa, kg/m³, to which leakage is stated: ASTM E779, appendix X1 (from memory). */
export const standardAirDensity = 1.2041;

/** Temperatures that can be used, °F: those of the formula for water vapour, −100 to 200 °C. */
export const airTemperatureSpan = { low: -148, high: 392 } as const;

/** Barometric pressures that can be used, Pa: from above the highest town to below the lowest mine. */
export const barometricSpan = { low: 20_000, high: 120_000 } as const;

export interface AirState {
  /** dry-bulb temperature, °F */
  temperature: number;
  /** barometric pressure at the house, Pa – not the one "reduced to sea level" of a weather report */
  pressure: number;
  /** relative humidity, %, 0 to 100; left out, the air counts as dry (0.6 to 1 % too dense in a humid house) */
  relativeHumidity?: number;
}

export interface AirDensity extends StatedUncertainty {
  /** kg/m³; the uncertainties are in the same unit */
  density: number;
  /** barometric pressure used, Pa */
  pressure: number;
  steps: Step[];
}

/**
 * Density of air, kg/m³: ρ = (p − e) / (287.042·T) + e / (287.042·1.607858·T) with T in kelvin, p the barometric
 * pressure and e the pressure of water vapour (relative humidity × saturation).
 * @param uncertainties standard, of `temperature` (°F), `pressure` (Pa) and `relativeHumidity` (%, exact when left
 * out); the density's is null when one of the first two is left out
 * Problems: `not-a-number`, `temperature-out-of-range`, `pressure-out-of-range`, `humidity-out-of-range`, each at
 * its own path, and `bad-uncertainty`. Never throws.
 * Source: ASHRAE Handbook Fundamentals 2017, chapter 1, ideal gas and moist air as in an open psychrometric library
 * (seen); dry air of 25 °C and moist air of 30 °C agree with the figures of that library's tests.
 */
export function airDensity(
  air: AirState,
  uncertainties: Uncertainties<keyof AirState> = {},
): Checked<AirDensity> {
  const { temperature, pressure, relativeHumidity = 0 } = air;
  const wrong =
    outside('temperature', 'temperature', temperature, airTemperatureSpan, '°F') ??
    outside('pressure', 'barometric pressure', pressure, barometricSpan, 'Pa') ??
    outside('relativeHumidity', 'relative humidity', relativeHumidity, { low: 0, high: 100 }, '%') ??
    statedUncertainties(uncertainties);
  if (wrong) return { ok: false, problem: wrong };
  const celsius = convert(temperature, 'degF', 'degC');
  const kelvin = celsius + 273.15;
  const vapor = (relativeHumidity / 100) * saturationPressure(celsius);
  // Hot enough, water boils below the barometric pressure and the share of air would come out below zero.
  if (vapor >= pressure) {
    const message = `Air of ${plainNumber(celsius, 1)} °C cannot hold ${plainNumber(relativeHumidity)} % humidity at this pressure.`;
    return problem('relativeHumidity', 'humidity-out-of-range', message);
  }
  const density = densityOf(kelvin, pressure, vapor);
  const dry = `${plainNumber(pressure, 0)} / (287.042 × ${plainNumber(kelvin, 2)} K)`;
  const moist = `(${plainNumber(pressure, 0)} − ${plainNumber(vapor, 0)} × (1 − 1 / 1.6079)) / (287.042 × ${plainNumber(kelvin, 2)} K)`;
  const steps: Step[] = [
    { label: 'Air density', working: vapor > 0 ? moist : dry, value: density, unit: 'kg/m3' },
  ];
  if (vapor > 0) {
    const working = `${plainNumber(relativeHumidity)} % of saturation at ${plainNumber(celsius, 1)} °C`;
    steps.unshift({ label: 'Pressure of water vapor', working, value: vapor, unit: 'Pa' });
  }
  // Warmth thins the air and, at the same relative humidity, brings more vapour too.
  const slope = (saturationPressure(celsius + 0.01) - saturationPressure(celsius - 0.01)) / 0.02;
  const perVapor = -(1 - 1 / vaporRatio) / (dryAirConstant * kelvin);
  const perKelvin = -density / kelvin + perVapor * (relativeHumidity / 100) * (slope || 0);
  const u = combined([
    [perKelvin * (5 / 9), uncertainties.temperature],
    [1 / (dryAirConstant * kelvin), uncertainties.pressure],
    [(perVapor * saturationPressure(celsius)) / 100, uncertainties.relativeHumidity ?? 0],
  ]);
  return computed({ density, pressure, ...statedUncertainty(u), steps });
}

/**
 * Density of air at a height, kg/m³, where no barometer was read: `standardPressure`, then `airDensity`.
 * @param temperature °F @param altitude ft above sea level @param relativeHumidity %, left out for dry air
 * @param uncertainties as for `airDensity`; that of the pressure is how far the day's weather may lie from the
 * standard atmosphere
 * Problems: those of both. Never throws.
 */
export function airDensityAtAltitude(
  temperature: number,
  altitude: number,
  relativeHumidity?: number,
  uncertainties: Uncertainties<keyof AirState> = {},
): Checked<AirDensity> {
  const found = standardPressure(altitude);
  if (!found.ok) return found;
  const { pressure, step } = found.value;
  const humidity = relativeHumidity === undefined ? {} : { relativeHumidity };
  const density = airDensity({ temperature, pressure, ...humidity }, uncertainties);
  if (!density.ok) return density;
  return computed({ ...density.value, steps: [step, ...density.value.steps] });
}

function densityOf(kelvin: number, pressure: number, vapor: number): number {
  return (pressure - vapor + vapor / vaporRatio) / (dryAirConstant * kelvin);
}

function outside(
  path: string,
  name: string,
  value: number,
  span: { low: number; high: number },
  unit: string,
): Problem | null {
  if (!Number.isFinite(value)) return { path, code: 'not-a-number', message: `The ${name} is not a number.` };
  if (value >= span.low && value <= span.high) return null;
  const code = path === 'relativeHumidity' ? 'humidity-out-of-range' : `${path}-out-of-range`;
  const message = `The ${name} is ${plainNumber(value)} ${unit}; it must lie between ${span.low} and ${span.high} ${unit}.`;
  return { path, code, message };
}
