import { type Checked, computed, problem } from '../outcome.ts';
import { convert } from '../units/convert.ts';

/** Density that leakage areas are stated at, kg/m³: 20 °C and 101,325 Pa, ASTM E779 (from memory). */
const areaDensity = 1.2041;

/** The ways in which a leakage area is stated: pressure, Pa, and discharge coefficient. */
export const leakageAreaForms = {
  /** effective leakage area of ASTM E779 and ASHRAE: seen in the documentation of an open building model library */
  effective: { pressure: 4, dischargeCoefficient: 1 },
  /** equivalent leakage area as used in Canada: from memory */
  equivalent: { pressure: 10, dischargeCoefficient: 0.611 },
  /** leakage area at 10 Pa as used with ISO 9972: seen in an open textbook */
  at10: { pressure: 10, dischargeCoefficient: 1 },
} as const;

/**
 * The area of one opening that would leak as much: A = Q · √(ρ / (2 · P)) / Cd, in².
 * @param flow at that pressure, cfm, zero or more @param pressure Pa, above zero
 * @param dischargeCoefficient Cd, dimensionless, above zero
 * @param density kg/m³, above zero
 * Problems: `bad-flow`, `bad-pressure`, `bad-coefficient`, `bad-density`. Never throws. Source: the documentation
 * of an open building model library and an open textbook, whose house has 159.9 cm² at 10 Pa (docs/sources.md,
 * Measurement 1); 0.2838 in² per cfm at 4 Pa computed independently.
 */
export function leakageArea(given: {
  flow: number;
  pressure: number;
  dischargeCoefficient: number;
  density?: number;
}): Checked<number> {
  const { flow, pressure, dischargeCoefficient, density = areaDensity } = given;
  if (!(flow >= 0 && flow < Infinity))
    return problem('flow', 'bad-flow', `The flow is ${flow} cfm; it must be zero or more.`);
  const above = (name: string, path: string, code: string, value: number, unit: string) =>
    value > 0 && value < Infinity
      ? null
      : problem(path, code, `The ${name} is ${value}${unit}; it must be above zero.`);
  const wrong =
    above('pressure', 'pressure', 'bad-pressure', pressure, ' Pa') ??
    above('discharge coefficient', 'dischargeCoefficient', 'bad-coefficient', dischargeCoefficient, '') ??
    above('density', 'density', 'bad-density', density, ' kg/m³');
  if (wrong) return wrong;
  return computed((flow * areaPerFlow(pressure, density)) / dischargeCoefficient);
}

/** in² for each cfm at a pressure (Pa) and density (kg/m³), with a discharge coefficient of 1. */
export function areaPerFlow(pressure: number, density = areaDensity): number {
  const cubicMetres = convert(1, 'cfm', 'L/s') / 1000;
  return convert(cubicMetres * Math.sqrt(density / (2 * pressure)), 'm2', 'in2');
}
