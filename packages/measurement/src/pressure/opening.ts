import { type Checked, computed, problem } from '../outcome.ts';

/**
 * cfm through one square inch at 1 Pa. From physics with a discharge coefficient of 0.6 and air of 1.2041
 * kg/m³ it is 1.057 (computed independently); the documentation of the public data format for home energy
 * ratings uses 1.06 for ducts; the trade uses 1.07 (common practice, no published source).
 */
export const orificeCoefficient = 1.07;

/**
 * The pressure that a flow makes across an opening: dP = (Q / (1.07 · A))².
 * @param freeArea in², above zero @param flow cfm, zero or more @returns Pa
 * Problems: `bad-area`, `bad-flow`. Never throws. Source: as `orificeCoefficient`.
 */
export function predictedPressure(freeArea: number, flow: number): Checked<number> {
  if (!(freeArea > 0 && freeArea < Infinity)) {
    return problem('freeArea', 'bad-area', `The free area is ${freeArea} in²; it must be above zero.`);
  }
  if (!isFlow(flow)) return problem('flow', 'bad-flow', `The flow is ${flow} cfm; it must be zero or more.`);
  return computed((flow / (orificeCoefficient * freeArea)) ** 2);
}

/**
 * The free area that lets a flow through at a pressure: A = Q / (1.07 · √dP).
 * @param flow cfm, zero or more @param pressure Pa, above zero @returns in²
 * Problems: `bad-flow`, `bad-pressure`. Never throws. Source: as `orificeCoefficient`.
 */
export function requiredFreeArea(flow: number, pressure: number): Checked<number> {
  if (!isFlow(flow)) return problem('flow', 'bad-flow', `The flow is ${flow} cfm; it must be zero or more.`);
  if (!(pressure > 0 && pressure < Infinity)) {
    return problem('pressure', 'bad-pressure', `The pressure is ${pressure} Pa; it must be above zero.`);
  }
  return computed(flow / (orificeCoefficient * Math.sqrt(pressure)));
}

/**
 * The flow that an opening lets through at a pressure: Q = 1.07 · A · √dP.
 * @param freeArea in², zero or more @param pressure Pa, zero or more @returns cfm
 * Problems: `bad-area`, `bad-pressure`. Never throws. Source: as `orificeCoefficient`.
 */
export function openingFlow(freeArea: number, pressure: number): Checked<number> {
  if (!isFlow(freeArea)) {
    return problem('freeArea', 'bad-area', `The free area is ${freeArea} in²; it must be zero or more.`);
  }
  if (!isFlow(pressure)) {
    return problem('pressure', 'bad-pressure', `The pressure is ${pressure} Pa; it must be zero or more.`);
  }
  return computed(orificeCoefficient * freeArea * Math.sqrt(pressure));
}

function isFlow(value: number): boolean {
  return value >= 0 && value < Infinity;
}
