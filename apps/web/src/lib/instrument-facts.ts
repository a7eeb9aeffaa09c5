import type { Instrument } from '@countercheck/contracts';
import type { InstrumentFacts } from '@countercheck/measurement';

/** An instrument as the measurement package sees it, with the calibration in force on a day. */
export function factsOn(instrument: Instrument, day: string): InstrumentFacts {
  const inForce = [...instrument.calibrations]
    .sort((a, b) => b.calibratedOn.localeCompare(a.calibratedOn))
    .find(({ calibratedOn }) => calibratedOn <= day);
  return {
    id: instrument.id,
    kind: instrument.kind,
    label: instrument.label,
    accuracyPercent: instrument.accuracyPercent,
    accuracyAbsolute: instrument.accuracyAbsolute,
    resolution: instrument.resolution,
    calibratedOn: inForce?.calibratedOn ?? null,
    dueOn: inForce?.dueOn ?? null,
    ranges: inForce?.ranges ?? [],
  };
}
