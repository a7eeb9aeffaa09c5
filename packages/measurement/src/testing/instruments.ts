import type { InstrumentFacts, InstrumentKind } from '../types.ts';

/** An invented instrument for tests; its ranges are round numbers, not those of any device. */
export function instrument(kind: InstrumentKind, part: Partial<InstrumentFacts> = {}): InstrumentFacts {
  return {
    id: `the-${kind}`,
    kind,
    label: `The ${kind}`,
    accuracyPercent: 3,
    accuracyAbsolute: 0,
    resolution: null,
    calibratedOn: '2026-01-15',
    dueOn: '2027-01-15',
    ranges: [],
    ...part,
  };
}

export const manometer = instrument('manometer', { accuracyPercent: 1, accuracyAbsolute: 0.25 });
export const ductTester = instrument('duct-tester', {
  ranges: [
    { range: 'small', c: 5, n: 0.5, minPa: 10, maxPa: 400 },
    { range: 'large', c: 20, n: 0.5, minPa: 10, maxPa: 400 },
  ],
});
export const blowerDoor = instrument('blower-door', {
  ranges: [{ range: 'full', c: 200, n: 0.5, minPa: 15, maxPa: 300 }],
});
export const flowMeter = instrument('exhaust-flow-meter', { accuracyPercent: 10 });
export const flowHood = instrument('flow-hood', { accuracyPercent: 5 });
export const coMonitor = instrument('ambient-co-monitor', { accuracyPercent: 5, accuracyAbsolute: 3 });
export const analyzer = instrument('combustion-analyzer', { accuracyPercent: 5, accuracyAbsolute: 10 });
export const stopwatch = instrument('stopwatch', {
  accuracyPercent: 0,
  accuracyAbsolute: 1,
  calibratedOn: null,
  dueOn: null,
});
