import type { Reading } from '@countercheck/contracts';
import type { Prisma } from '@countercheck/prisma';
import { calibrationOn, dayAt, isoDate } from '../assessment/index.ts';

export const readingParts = {
  instrument: { include: { calibrations: true } },
  takenBy: { select: { id: true, name: true } },
  supersededBy: { select: { id: true } },
} satisfies Prisma.ReadingInclude;
type ReadingRow = Prisma.ReadingGetPayload<{ include: typeof readingParts }>;

export const inOrderTaken = [
  { takenAt: 'asc' },
  { receivedAt: 'asc' },
  { id: 'asc' },
] satisfies Prisma.ReadingOrderByWithRelationInput[];

function presentInstrument({ instrument, takenAt }: ReadingRow, timezone: string): Reading['instrument'] {
  if (!instrument) return null;
  const calibration = calibrationOn(instrument, dayAt(takenAt, timezone));
  return {
    id: instrument.id,
    label: instrument.label,
    serial: instrument.serial,
    calibratedOn: calibration ? isoDate(calibration.calibratedOn) : null,
    dueOn: calibration ? isoDate(calibration.dueOn) : null,
  };
}

export function presentReading(row: ReadingRow, timezone: string): Reading {
  return {
    id: row.id,
    visitId: row.visitId,
    test: row.test as Reading['test'],
    subjectId: row.subjectId,
    raw: row.raw as Reading['raw'],
    entered: row.entered as Reading['entered'],
    conditions: row.conditions as Reading['conditions'],
    instrument: presentInstrument(row, timezone),
    takenBy: row.takenBy,
    takenAt: row.takenAt.toISOString(),
    receivedAt: row.receivedAt.toISOString(),
    supersedesId: row.supersedesId,
    supersedeReason: row.supersedeReason,
    supersededById: row.supersededBy?.id ?? null,
    figuresRevision: row.figuresRevision,
  };
}
