import type { RecallHouse, RecallResult, RecallSheet } from '@countercheck/contracts';
import type { InstrumentKind } from '@countercheck/measurement';
import type { Prisma } from '@countercheck/prisma';
import { presentRun } from '../../kernel/runs/ask.ts';
import { isoDate } from '../assessment/index.ts';

export const recallParts = { run: true, instrument: true } satisfies Prisma.RecallInclude;
type RecallRow = Prisma.RecallGetPayload<{ include: typeof recallParts }>;

export const recallHouseParts = {
  house: {
    include: { builder: { select: { id: true, name: true } }, community: { select: { name: true } } },
  },
} satisfies Prisma.RecallHouseInclude;
type HouseRow = Prisma.RecallHouseGetPayload<{ include: typeof recallHouseParts }>;

export function presentRecall(row: RecallRow): RecallSheet {
  const { id, kind, label, serial } = row.instrument;
  return {
    ...presentRun(row.run),
    instrument: { ...{ id, label, serial }, kind: kind as InstrumentKind },
    from: isoDate(row.fromOn),
    to: isoDate(row.toOn),
    error: row.error as unknown as RecallSheet['error'],
    reason: row.reason,
    note: row.note,
    result: row.result as unknown as RecallResult | null,
  };
}

export function presentRecallHouse(row: HouseRow): RecallHouse {
  const { id, address, lot, stage, builder, community } = row.house;
  return {
    ...{ id, address, lot, stage, builder },
    community: community.name,
    sealed: row.sealed,
    revisit: row.revisit,
    readings: row.readings as unknown as RecallHouse['readings'],
    flips: row.flips as unknown as RecallHouse['flips'],
  };
}
