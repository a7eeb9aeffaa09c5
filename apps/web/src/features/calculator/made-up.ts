import type { InstrumentFacts, InstrumentKind } from '@countercheck/measurement';
import { instrumentWords } from '../../lib/words/instruments.ts';
import type { MadeUpInstrument, MadeUpRange } from './state.ts';

const accuracies: Record<InstrumentKind, [percent: number, absolute: number]> = {
  manometer: [1, 0.25],
  'blower-door': [4, 0],
  'duct-tester': [4, 0],
  'flow-hood': [5, 5],
  'powered-flow-hood': [4, 2],
  'exhaust-flow-meter': [10, 0],
  'combustion-analyzer': [5, 10],
  'ambient-co-monitor': [5, 3],
  thermometer: [0, 1],
  'tape-measure': [0, 0.0625],
  stopwatch: [0, 1],
};
// Round numbers, those of no device.
const ranges: Partial<Record<InstrumentKind, MadeUpRange[]>> = {
  'blower-door': [
    { range: 'Large opening', c: 300, n: 0.5, minPa: 20, maxPa: 350 },
    { range: 'Small opening', c: 100, n: 0.5, minPa: 20, maxPa: 350 },
  ],
  'duct-tester': [
    { range: 'Large opening', c: 40, n: 0.5, minPa: 15, maxPa: 400 },
    { range: 'Small opening', c: 8, n: 0.5, minPa: 15, maxPa: 400 },
  ],
};

/** An instrument for training, with an accuracy such as its kind usually has (common practice). */
export function madeUp(kind: InstrumentKind): MadeUpInstrument {
  const [accuracyPercent, accuracyAbsolute] = accuracies[kind];
  return {
    kind,
    accuracyPercent,
    accuracyAbsolute,
    resolution: null,
    ranges: (ranges[kind] ?? []).map((range) => ({ ...range })),
  };
}

const given = (value: number | null): value is number => value !== null && Number.isFinite(value);

/** The instrument as the tests see it, in calibration on the day; a range that is not complete is left out. */
export function factsOf(instrument: MadeUpInstrument, day: string): InstrumentFacts {
  const { kind, accuracyPercent, accuracyAbsolute, resolution } = instrument;
  return {
    id: 'made-up',
    kind,
    label: `Made-up ${instrumentWords[kind].toLowerCase()}`,
    accuracyPercent: given(accuracyPercent) ? accuracyPercent : 0,
    accuracyAbsolute: given(accuracyAbsolute) ? accuracyAbsolute : 0,
    resolution: given(resolution) ? resolution : null,
    calibratedOn: day,
    dueOn: day,
    ranges: instrument.ranges.flatMap(({ range, c, n, minPa, maxPa }) =>
      given(c) && given(n) && given(minPa) && given(maxPa) && range.trim() !== ''
        ? [{ range: range.trim(), c, n, minPa, maxPa }]
        : [],
    ),
  };
}
