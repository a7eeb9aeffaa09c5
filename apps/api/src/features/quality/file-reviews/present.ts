import type { FileFinding, FileReviewSummary } from '@countercheck/contracts';
import { checkOf, type Checklist } from '@countercheck/quality';
import type { Prisma } from '@countercheck/prisma';
import { isoDate } from '../../assessment/index.ts';
import { presentQualityHouse, qualityHouse } from '../../retests/index.ts';

const named = { select: { id: true, name: true } };
const alive: Prisma.FileReviewFindingWhereInput = { state: { in: ['open', 'answered', 'appealed'] } };

export const summaryParts = {
  house: qualityHouse,
  rater: named,
  reviewer: named,
  _count: { select: { findings: { where: alive } } },
} satisfies Prisma.FileReviewInclude;
export type SummaryRow = Prisma.FileReviewGetPayload<{ include: typeof summaryParts }>;

export function presentSummary(row: SummaryRow, today: string): FileReviewSummary {
  const { id, revision, rater, reviewer, source, reason, state, outcome, note, timesReopened, orderedBy } =
    row;
  const dueOn = isoDate(row.dueOn);
  return {
    ...{ id, revision, rater, reviewer, source, reason, state, outcome, note, timesReopened, orderedBy },
    house: presentQualityHouse(row.house),
    dueOn,
    overdue: state === 'open' && dueOn < today,
    orderedAt: row.orderedAt.toISOString(),
    startedAt: row.startedAt?.toISOString() ?? null,
    doneAt: row.doneAt?.toISOString() ?? null,
    openFindings: row._count.findings,
  };
}

export const findingParts = { responsible: named } satisfies Prisma.FileReviewFindingInclude;
export type FindingRow = Prisma.FileReviewFindingGetPayload<{ include: typeof findingParts }>;

export function presentFinding(row: FindingRow, list: Checklist, today: string): FileFinding {
  const dueOn = isoDate(row.dueOn);
  return {
    id: row.id,
    fileReviewId: row.fileReviewId,
    step: row.step,
    check: row.check,
    checkTitle: checkOf(list, row.check)?.title ?? row.check,
    automatic: row.automatic,
    severity: row.severity,
    text: row.text,
    responsible: row.responsible,
    dueOn,
    overdue: row.state === 'open' && dueOn < today,
    state: row.state,
    raisedBy: row.raisedBy,
    raisedAt: row.raisedAt.toISOString(),
    answer: row.answer,
    answeredBy: row.answeredBy,
    answeredAt: row.answeredAt?.toISOString() ?? null,
    appeal: row.appeal,
    appealedAt: row.appealedAt?.toISOString() ?? null,
    decision: row.decision,
    decisionReason: row.decisionReason,
    decidedBy: row.decidedBy,
    decidedAt: row.decidedAt?.toISOString() ?? null,
    settledBy: row.settledBy,
    settledAt: row.settledAt?.toISOString() ?? null,
    settledNote: row.settledNote,
  };
}
