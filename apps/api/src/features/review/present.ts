import type { findingSchema, Release as ReleaseAnswer, WholeFile } from '@countercheck/contracts';
import type { Prisma, Release, ReviewFinding } from '@countercheck/prisma';
import type * as z from 'zod';

type ReviewAnswer = WholeFile['reviews'][number];

export const withFindings = {
  findings: { orderBy: { id: 'asc' } },
} satisfies Prisma.ReviewInclude;
export type ReviewRow = Prisma.ReviewGetPayload<{ include: typeof withFindings }>;

export function presentFinding(row: ReviewFinding): z.input<typeof findingSchema> {
  const { id, item, subjectId, severity, text, answer } = row;
  return { id, item, subjectId, severity, text, answer, answeredAt: row.answeredAt?.toISOString() ?? null };
}

export function presentReview(row: ReviewRow): ReviewAnswer {
  const { id, revision, reviewer, outcome, note } = row;
  return {
    ...{ id, revision, reviewer, outcome, note },
    at: row.at.toISOString(),
    findings: row.findings.map(presentFinding),
  };
}

export function presentRelease(row: Omit<Release, 'content'>): ReleaseAnswer {
  const { id, houseId, revision, releasedBy, hash } = row;
  return { id, houseId, revision, releasedBy, hash, releasedAt: row.releasedAt.toISOString() };
}
