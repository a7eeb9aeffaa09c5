import { type Checked, computed, problem } from '../outcome.ts';
import type { InstrumentFacts, Step } from '../types.ts';
import { plainNumber } from '../units/round.ts';
import { powerLawFlow } from './power-law.ts';
import { tableFlow, type TablePoint } from './table-flow.ts';

export interface FlowWithStep {
  /** cfm */
  flow: number;
  /** d ln Q / d ln P there, by which the pressure's uncertainty enters: the range's n, or the table's own slope */
  exponent: number;
  step: Step;
}

/**
 * Flow through a flow device from the pressure it shows on one of its ranges: Q = c · P^n (cfm, Pa), with the
 * range's own calibration and only inside the pressures for which that holds (limits included). A range with a
 * table is read from the table instead (see `tableFlow`), inside both the table and the limits. The sign of the
 * pressure is dropped: it depends on which way the tubing is connected.
 * @param range name of the ring, plate or setting
 * @param devicePressure Pa
 * Problems: `unknown-range`, `not-a-number`, `zero-pressure`, `below-range`, `above-range`,
 * `bad-calibration`. Nothing is extrapolated: outside its pressures a device reads wrong by an unknown amount (common practice, no
 * published source). Source of the form: power law, as `powerLawFlow`. Never throws.
 */
export function rangeFlow(
  instrument: InstrumentFacts,
  range: string,
  devicePressure: number,
): Checked<FlowWithStep> {
  const calibration = instrument.ranges.find((candidate) => candidate.range === range);
  if (!calibration) {
    const known = instrument.ranges.map((candidate) => candidate.range).join(', ') || 'none';
    return problem(
      'choices.range',
      'unknown-range',
      `${instrument.label} has no range "${range}". It has: ${known}.`,
    );
  }
  const { c, n, minPa, maxPa } = calibration;
  const path = 'values.fanPressure';
  if (!Number.isFinite(devicePressure))
    return problem(path, 'not-a-number', 'The fan pressure is not a number.');
  const pressure = Math.abs(devicePressure);
  const shown = `${plainNumber(pressure)} Pa`;
  if (pressure === 0) {
    return problem(
      path,
      'zero-pressure',
      'The fan pressure is 0 Pa: no flow can be told from it. Check the tubing.',
    );
  }
  const window = `range ${range} holds from ${minPa} to ${maxPa} Pa`;
  if (pressure < minPa) {
    return problem(
      path,
      'below-range',
      `The fan pressure is ${shown}, but ${window}. Use a smaller opening.`,
    );
  }
  if (pressure > maxPa) {
    return problem(path, 'above-range', `The fan pressure is ${shown}, but ${window}. Use a larger opening.`);
  }
  const label = `Flow on range ${range}`;
  if (calibration.table) return fromTable(calibration.table, pressure, label);
  const flow = c === null || n === null ? NaN : powerLawFlow(c, n, pressure);
  if (c === null || n === null || !Number.isFinite(flow) || flow <= 0) {
    return problem(
      'choices.range',
      'bad-calibration',
      `Range ${range} of ${instrument.label} gives no flow. Check its calibration.`,
    );
  }
  const working = `${plainNumber(c, 6)} × ${plainNumber(pressure)}^${plainNumber(n, 6)}`;
  return computed({ flow, exponent: n, step: { label, working, value: flow, unit: 'cfm' } });
}

function fromTable(table: readonly TablePoint[], pressure: number, label: string): Checked<FlowWithStep> {
  const found = tableFlow(table, pressure);
  if (found.ok) return computed({ ...found.value, step: { ...found.value.step, label } });
  const { code, message, path } = found.problem;
  const atTheTable = path === 'table';
  return problem(
    atTheTable ? 'choices.range' : 'values.fanPressure',
    atTheTable ? 'bad-calibration' : code,
    message,
  );
}
