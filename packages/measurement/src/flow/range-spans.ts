import type { InstrumentFacts } from '../types.ts';
import { rangeFlow } from './range-flow.ts';

/** What one range of a device can read. */
export interface RangeSpan {
  range: string;
  /** device pressures, Pa: the range's window, or its table where that is narrower */
  lowPa: number;
  highPa: number;
  /** flows, cfm, that belong to them */
  lowFlow: number;
  highFlow: number;
}

/**
 * The pressures (Pa) and flows (cfm) that each range of a device can read, from the smallest flow on: tells which
 * opening suits. A range whose calibration gives no flow is left out. Never throws. Source: as `rangeFlow`.
 */
export function rangeSpans(instrument: InstrumentFacts): RangeSpan[] {
  const spans = instrument.ranges.flatMap(({ range, minPa, maxPa, table }) => {
    const pressures = table?.map(({ pressure }) => pressure) ?? [];
    // From a window that begins at zero nothing is read at zero itself; the flow there is zero.
    const lowPa = Math.max(minPa, pressures.length > 0 ? Math.min(...pressures) : 0);
    const highPa = Math.min(maxPa, ...(pressures.length > 0 ? [Math.max(...pressures)] : []));
    const high = rangeFlow(instrument, range, highPa);
    const low = lowPa === 0 ? null : rangeFlow(instrument, range, lowPa);
    if (!high.ok || (low && !low.ok)) return [];
    return [{ range, lowPa, highPa, lowFlow: low?.value.flow ?? 0, highFlow: high.value.flow }];
  });
  return spans.sort((a, b) => a.lowFlow - b.lowFlow || a.highFlow - b.highFlow);
}

/**
 * The names of the ranges that can read a flow, the smallest opening first, because it brings the device's pressure
 * up and with it the accuracy. Limits included; none for no number. Never throws.
 * @param flow expected, cfm
 */
export function rangesForFlow(instrument: InstrumentFacts, flow: number): string[] {
  return rangeSpans(instrument)
    .filter(({ lowFlow, highFlow }) => flow >= lowFlow && flow <= highFlow)
    .sort((a, b) => a.highFlow - b.highFlow)
    .map(({ range }) => range);
}
