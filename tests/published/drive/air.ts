import {
  airDensity,
  airDensityAtAltitude,
  convert,
  methodAirDensity,
  standardPressure,
} from '@countercheck/measurement';
import { figures } from '../run/figures.ts';
import type { Driver } from './index.ts';

const pascalsPerPsi = 6894.757293168361;
const kilogramsPerPound = 0.45359237;
const cubicMetresPerCubicFoot = 0.3048 ** 3;

function feet({ metres, feet: given }: Record<string, unknown>): number {
  return typeof given === 'number' ? given : convert(Number(metres), 'm', 'ft');
}

function fahrenheit({ celsius, fahrenheit: given }: Record<string, unknown>): number {
  return typeof given === 'number' ? given : convert(Number(celsius), 'degC', 'degF');
}

/** Barometric pressure at a height in whatever unit the source prints it, and dry air's density there. */
const atmosphere: Driver = (given) => {
  const pascals = Number(figures(standardPressure(feet(given)))['pressure']);
  const density =
    'celsius' in given ? figures(airDensityAtAltitude(fahrenheit(given), feet(given)))['density'] : null;
  return { pascals, hectopascals: pascals / 100, psi: pascals / pascalsPerPsi, density };
};

/** Density of air from a humidity ratio, as psychrometric tables state it, or of dry air. */
const air: Driver = (given) => {
  const pressure = typeof given['psi'] === 'number' ? given['psi'] * pascalsPerPsi : Number(given['pascals']);
  const temperature = fahrenheit(given);
  const vapor = vaporPressure(Number(given['humidityRatio'] ?? 0), pressure);
  const relativeHumidity = (100 * vapor) / saturated(temperature);
  const found = figures(airDensity({ temperature, pressure, relativeHumidity }));
  const density = Number(found['density']);
  const poundsPerCubicFoot = (density / kilogramsPerPound) * cubicMetresPerCubicFoot;
  return {
    density,
    cubicMetresPerKilogram: 1 / density,
    poundsPerCubicFoot,
    cubicFeetPerPound: 1 / poundsPerCubicFoot,
  };
};

/** Saturated water vapour, as the working of a density of saturated air states it. */
const saturation: Driver = (given) => {
  const pascals = saturated(fahrenheit(given));
  return { pascals, psi: pascals / pascalsPerPsi };
};

/** Density as the envelope test method works it out, in the unit of its form. */
const methodDensity: Driver = (given) => {
  const form = given['form'] === 'IP' ? 'IP' : 'SI';
  const density = Number(figures(methodAirDensity(fahrenheit(given), feet(given), form))['density']);
  return { density, pounds: (density / kilogramsPerPound) * cubicMetresPerCubicFoot };
};

function saturated(temperature: number): number {
  const found = airDensity({ temperature, pressure: 101325, relativeHumidity: 100 });
  if (!found.ok) return NaN;
  return found.value.steps.find(({ unit }) => unit === 'Pa')?.value ?? NaN;
}

// e = p · W / (0.621945 + W), the definition of the humidity ratio.
function vaporPressure(ratio: number, pressure: number): number {
  return (pressure * ratio) / (0.621945 + ratio);
}

export const airs = { atmosphere, air, saturation, methodDensity };
