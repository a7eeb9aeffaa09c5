import {
  airViscosity,
  convert,
  fitEnvelopeTest,
  leakageArea,
  methodAirDensity,
  throughEnvelopeFactor,
} from '@countercheck/measurement';
import { figures } from '../run/figures.ts';
import type { Driver } from './index.ts';

/** A leakage area in cm² from a flow in m³/h, and the hole of that size. */
const metricLeakageArea: Driver = ({ flowM3PerHour, pressure, density }) => {
  const flow = convert(Number(flowM3PerHour), 'm3/h', 'cfm');
  const area = leakageArea({
    flow,
    pressure: Number(pressure),
    dischargeCoefficient: 1,
    density: Number(density),
  });
  const squareCentimetres = convert(Number(figures(area)['value']), 'in2', 'cm2');
  return { squareCentimetres, holeCentimetres: 2 * Math.sqrt(squareCentimetres / Math.PI) };
};

/** A whole envelope test, depressurised and without wind, with what the findings say about it. */
const envelopeTest: Driver = ({ pressure, flow }) => {
  const flows = Array.isArray(flow) ? flow.map(Number) : [];
  const points = (Array.isArray(pressure) ? pressure : []).map((each, i) => ({
    pressure: -Number(each),
    flow: convert(flows[i] ?? NaN, 'm3/h', 'cfm'),
  }));
  const test = fitEnvelopeTest({ points, baselineBefore: 0, baselineAfter: 0 });
  if (!test.ok) return figures(test);
  const { directions, findings, valid } = test.value;
  return { ...directions[0], valid, lowRSquared: findings.some(({ code }) => code === 'low-r-squared') };
};

/** From the fan to the envelope, for temperatures in °C at sea level. */
const envelopeFactor: Driver = ({ direction, inside, outside }) => {
  const density = (celsius: unknown) =>
    Number(figures(methodAirDensity(convert(Number(celsius), 'degC', 'degF'), 0, 'SI'))['density']);
  const way = direction === 'pressurise' ? 'pressurise' : 'depressurise';
  return { factor: throughEnvelopeFactor(way, density(inside), density(outside)) };
};

/** Viscosity of air, μPa·s. */
const viscosity: Driver = ({ kelvin }) => ({
  micro: 1e6 * airViscosity(convert(Number(kelvin) - 273.15, 'degC', 'degF')),
});

export const envelopes = { metricLeakageArea, envelopeTest, envelopeFactor, viscosity };
