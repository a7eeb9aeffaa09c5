import { type Checked, computed } from '../outcome.ts';
import type { InstrumentFacts } from '../types.ts';
import { plainNumber } from '../units/round.ts';
import { aboveZero, firstProblem, statedUncertainties, type Uncertainties } from '../working/input.ts';
import { combined, worked, type Worked } from '../working/worked.ts';
import { rangeFlow } from './range-flow.ts';

export interface BuiltInFlow {
  /** what the gauge displayed as flow, cfm: the plain flow, not one that it took to a reference pressure */
  displayed: number;
  /** the coefficients by which the gauge worked it out: those of the device and range it was set to */
  builtIn: { c: number; n: number };
}

export interface ConvertedFlow extends Worked<'cfm'> {
  /** the device's pressure behind both flows, Pa */
  pressure: number;
}

/**
 * The flow through the device that was really connected, when the gauge worked its display out for another one:
 * P = (Q / c₁)^(1 / n₁) is what the gauge felt, and the connected device's own range gives the flow at it.
 * @param instrument and @param range the device that was connected, its window and table respected (`rangeFlow`)
 * @param uncertainties standard, of `displayed` (cfm): its share is multiplied by n₂ / n₁. The connected device's own
 * accuracy is not in it.
 * Problems: `not-above-zero`, `bad-uncertainty` and those of `rangeFlow`. Never throws.
 * Source: algebra of the power law (docs/sources.md, Measurement 1).
 */
export function flowOfOtherDevice(
  { displayed, builtIn }: BuiltInFlow,
  instrument: InstrumentFacts,
  range: string,
  uncertainties: Uncertainties<'displayed'> = {},
): Checked<ConvertedFlow> {
  const refusal = firstProblem(
    aboveZero('displayed', 'The flow displayed', displayed, 'cfm'),
    aboveZero('builtIn.c', 'The built-in coefficient', builtIn.c, 'cfm'),
    aboveZero('builtIn.n', 'The built-in exponent', builtIn.n, ''),
    statedUncertainties(uncertainties),
  );
  if (refusal) return refusal;
  const pressure = (displayed / builtIn.c) ** (1 / builtIn.n);
  const found = rangeFlow(instrument, range, pressure);
  if (!found.ok) return found;
  const { flow, exponent, step } = found.value;
  const u = combined([[((exponent / builtIn.n) * flow) / displayed, uncertainties.displayed]]);
  const working = `(${plainNumber(displayed)} / ${plainNumber(builtIn.c, 6)})^(1 / ${plainNumber(builtIn.n, 6)})`;
  const steps = [{ label: 'Pressure behind the display', working, value: pressure, unit: 'Pa' }, step];
  return computed({ ...worked('cfm', flow, u, steps), pressure });
}
