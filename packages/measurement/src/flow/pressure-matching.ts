import { type Checked, computed, problem } from '../outcome.ts';
import { plainNumber } from '../units/round.ts';
import {
  aboveZero,
  finite,
  firstProblem,
  statedUncertainties,
  type Uncertainties,
  zeroOrMore,
} from '../working/input.ts';
import { combined, worked, type Worked } from '../working/worked.ts';

/** Pressures further apart than this ratio are refused: common practice, no published source. */
export const widestPressureMatch = 2;

export interface PressureMatch {
  /** read with the device in place, cfm */
  flow: number;
  /** pressure across a part of the path that the device does not change, with the device in place, Pa */
  pressureWith: number;
  /** the same without the device, Pa; the same sign */
  pressureWithout: number;
  /** pressure exponent of that part, dimensionless; 0.5 when left out */
  exponent?: number;
}

export interface MatchedFlow extends Worked<'cfm'> {
  /** (P_without / P_with)^n */
  factor: number;
}

/**
 * The flow that goes when the flow device is taken away again: a device adds resistance, so it reads less than what
 * flows without it. Through a part of the path that the device does not change, flow follows that part's pressure
 * by a power law: Q_without = Q_with · (P_without / P_with)^n. Such a part is the supply side's static pressure for a
 * device in the return, or a grille's own drop for a hood over it – not the pressure behind a throttled grille.
 * @param uncertainties standard, of `flow` (cfm), both pressures (Pa) and `exponent`; those left out make the
 * result's unknown. The errors of the two pressures count as independent, which one gauge's are not: safe side.
 * Problems: `below-zero`, `not-a-number`, `zero-pressure`, `sign-differs`, `pressures-too-far-apart` (a ratio beyond
 * `widestPressureMatch`), `not-above-zero`, `bad-uncertainty`. Never throws.
 * Source: algebra of the power law, exponent 0.5 for a sharp opening seen in the documentation of an open building
 * model library; its use with flow plates and hoods is common practice, no published source.
 */
export function matchPressure(
  input: PressureMatch,
  uncertainties: Uncertainties<'flow' | 'pressureWith' | 'pressureWithout' | 'exponent'> = {},
): Checked<MatchedFlow> {
  const { flow, pressureWith, pressureWithout, exponent = 0.5 } = input;
  const refusal = firstProblem(
    zeroOrMore('flow', 'The flow', flow, 'cfm'),
    finite('pressureWith', 'The pressure with the device', pressureWith, 'Pa'),
    finite('pressureWithout', 'The pressure without the device', pressureWithout, 'Pa'),
    aboveZero('exponent', 'The exponent', exponent, ''),
    statedUncertainties(uncertainties),
  );
  if (refusal) return refusal;
  if (pressureWith === 0 || pressureWithout === 0) {
    const path = pressureWith === 0 ? 'pressureWith' : 'pressureWithout';
    return problem(path, 'zero-pressure', 'A pressure is 0 Pa: no flow follows. Check the tubing.');
  }
  const ratio = pressureWithout / pressureWith;
  const both = `${plainNumber(pressureWith)} Pa with and ${plainNumber(pressureWithout)} Pa without the device`;
  if (ratio < 0) {
    const message = `The pressures are ${both}: they differ in sign. Connect the tubes the same way twice.`;
    return problem('pressureWithout', 'sign-differs', message);
  }
  if (ratio > widestPressureMatch || ratio < 1 / widestPressureMatch) {
    const message = `The pressures are ${both}: further apart than ${widestPressureMatch} to 1. Use a device that holds the flow up less.`;
    return problem('pressureWithout', 'pressures-too-far-apart', message);
  }
  const factor = ratio ** exponent;
  const value = flow * factor;
  const u = combined([
    [factor, uncertainties.flow],
    [(exponent * value) / pressureWith, uncertainties.pressureWith],
    [(exponent * value) / pressureWithout, uncertainties.pressureWithout],
    [value * Math.log(ratio), uncertainties.exponent],
  ]);
  const pressures = `${plainNumber(pressureWithout)} / ${plainNumber(pressureWith)}`;
  const working = `${plainNumber(flow)} × (${pressures})^${plainNumber(exponent)}`;
  const steps = [{ label: 'Flow without the device', working, value, unit: 'cfm' }];
  return computed({ ...worked('cfm', value, u, steps), factor });
}

export interface Throttling {
  /** read with the device in place, cfm */
  flow: number;
  /** pressure that the device itself takes at that flow, Pa, zero or more: what its maker states, or read inside it */
  devicePressure: number;
  /** pressure that drives air through terminal and device together, Pa, above that of the device */
  drivingPressure: number;
  /** pressure exponent of the terminal, dimensionless; 0.5 when left out */
  exponent?: number;
}

/**
 * The flow through a terminal without the hood that throttles it, when the pressure driving it stays as it is:
 * Q_without = Q_with · (P / (P − P_device))^n. The same law as `matchPressure`, the terminal being the part that does
 * not change: P − P_device remains for it with the hood, P without.
 * @param uncertainties standard, of `flow` (cfm), both pressures (Pa) and `exponent`, as for `matchPressure`
 * Problems: `below-zero`, `not-above-zero`, `device-takes-all` (no less than the driving pressure), and those of
 * `matchPressure`. Never throws. Source: as `matchPressure`; that unpowered hoods err by 11 to 25 % and powered ones
 * by about 6 % is seen at a national laboratory (docs/sources.md, Measurement 10).
 */
export function undoThrottling(
  input: Throttling,
  uncertainties: Uncertainties<'flow' | 'devicePressure' | 'drivingPressure' | 'exponent'> = {},
): Checked<MatchedFlow> {
  const { flow, devicePressure, drivingPressure, exponent = 0.5 } = input;
  const refusal = firstProblem(
    zeroOrMore('devicePressure', 'The pressure that the device takes', devicePressure, 'Pa'),
    aboveZero('drivingPressure', 'The driving pressure', drivingPressure, 'Pa'),
    statedUncertainties(uncertainties),
  );
  if (refusal) return refusal;
  const left = drivingPressure - devicePressure;
  if (left <= 0) {
    const message = `The device takes ${plainNumber(devicePressure)} Pa of the ${plainNumber(drivingPressure)} Pa that drive the air; nothing is left for the terminal.`;
    return problem('devicePressure', 'device-takes-all', message);
  }
  const matched = matchPressure({
    flow,
    pressureWith: left,
    pressureWithout: drivingPressure,
    exponent,
  });
  if (!matched.ok) return matched;
  const { value, factor, steps } = matched.value;
  // The driving pressure stands in both pressures, so its error enters once, by the difference.
  const u = combined([
    [factor, uncertainties.flow],
    [(exponent * value) / left, uncertainties.devicePressure],
    [exponent * value * (1 / drivingPressure - 1 / left), uncertainties.drivingPressure],
    [value * Math.log(drivingPressure / left), uncertainties.exponent],
  ]);
  const rest = {
    label: 'Pressure left for the terminal',
    working: `${plainNumber(drivingPressure)} − ${plainNumber(devicePressure)}`,
    value: left,
    unit: 'Pa',
  };
  return computed({ ...worked('cfm', value, u, [rest, ...steps]), factor });
}
