import type {
  SignalFinding,
  SignalFindingSummary,
  SignalRun,
  SignalRunResult,
} from '@countercheck/contracts';
import type { SignalKey } from '@countercheck/signals';
import type { Prisma } from '@countercheck/prisma';
import { presentRun } from '../../kernel/runs/ask.ts';
import { isoDate } from '../assessment/index.ts';

export const runParts = { run: true } satisfies Prisma.SignalRunInclude;
type RunRow = Prisma.SignalRunGetPayload<{ include: typeof runParts }>;

export const findingParts = {
  rater: { select: { id: true, name: true } },
} satisfies Prisma.SignalFindingInclude;
export type FindingRow = Prisma.SignalFindingGetPayload<{ include: typeof findingParts }>;

export function presentSignalRun(row: RunRow): SignalRun {
  return {
    ...presentRun(row.run),
    from: isoDate(row.fromOn),
    to: isoDate(row.toOn),
    result: row.result as unknown as SignalRunResult | null,
  };
}

export function presentFindingSummary(row: FindingRow): SignalFindingSummary {
  const { id, runId, rater, sentence, looked, p, q, state, reason, decidedBy } = row;
  return {
    ...{ id, runId, rater, sentence, looked, p, q, state, reason, decidedBy },
    signal: row.signal as SignalKey,
    houses: row.houseIds.length,
    decidedAt: row.decidedAt?.toISOString() ?? null,
    createdAt: row.createdAt.toISOString(),
  };
}

export function presentFinding(
  row: FindingRow,
  behind: SignalFinding['behind'],
  earlier: Pick<FindingRow, 'id' | 'createdAt' | 'state' | 'reason'>[],
): SignalFinding {
  return {
    ...presentFindingSummary(row),
    behind,
    evidence: row.evidence as unknown as SignalFinding['evidence'],
    earlier: earlier.map(({ createdAt, ...rest }) => ({ ...rest, createdAt: createdAt.toISOString() })),
  };
}
