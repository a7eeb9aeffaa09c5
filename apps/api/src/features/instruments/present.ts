import type { Instrument } from '@countercheck/contracts';
import { calibrationState, type InstrumentKind } from '@countercheck/measurement';
import type { Instrument as Row, InstrumentCalibration, Prisma } from '@countercheck/prisma';
import { dayAt, instrumentFacts, isoDate } from '../assessment/index.ts';

export const instrumentParts = {
  calibrations: { orderBy: { calibratedOn: 'desc' } },
} satisfies Prisma.InstrumentInclude;
export type InstrumentRow = Row & { calibrations: InstrumentCalibration[] };

/** An instrument as it is known, and whether a reading taken with it today would count. */
export function presentInstrument(row: InstrumentRow, timezone: string): Instrument {
  const { id, kind, label, serial, accuracyPercent, accuracyAbsolute, resolution, active, note } = row;
  const today = dayAt(new Date(), timezone);
  return {
    id,
    kind: kind as InstrumentKind,
    label,
    serial,
    accuracyPercent,
    accuracyAbsolute,
    resolution,
    active,
    note,
    calibrations: row.calibrations.map((each) => ({
      id: each.id,
      calibratedOn: isoDate(each.calibratedOn),
      dueOn: isoDate(each.dueOn),
      certificate: each.certificate,
      ranges: each.ranges as Instrument['calibrations'][number]['ranges'],
    })),
    inCalibration: calibrationState(instrumentFacts(row, today), today).counts,
  };
}
