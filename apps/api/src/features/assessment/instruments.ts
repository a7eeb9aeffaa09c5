import type { InstrumentFacts, InstrumentKind, RangeCalibration } from '@countercheck/measurement';
import type { Instrument, InstrumentCalibration } from '@countercheck/prisma';
import { isoDate } from './calendar.ts';

export type InstrumentRow = Instrument & { calibrations: InstrumentCalibration[] };

/** The calibration in force on a day: the newest made on or before it, whether or not it was overdue by then. */
export function calibrationOn(instrument: InstrumentRow, day: string): InstrumentCalibration | undefined {
  return instrument.calibrations
    .filter(({ calibratedOn }) => isoDate(calibratedOn) <= day)
    .sort((a, b) => b.calibratedOn.getTime() - a.calibratedOn.getTime())[0];
}

/** An instrument as it was on the day of a reading. */
export function instrumentFacts(instrument: InstrumentRow, day: string): InstrumentFacts {
  const calibration = calibrationOn(instrument, day);
  return {
    id: instrument.id,
    kind: instrument.kind as InstrumentKind,
    label: instrument.label,
    accuracyPercent: instrument.accuracyPercent,
    accuracyAbsolute: instrument.accuracyAbsolute,
    resolution: instrument.resolution,
    calibratedOn: calibration ? isoDate(calibration.calibratedOn) : null,
    dueOn: calibration ? isoDate(calibration.dueOn) : null,
    ranges: (calibration?.ranges ?? []) as unknown as RangeCalibration[],
  };
}
