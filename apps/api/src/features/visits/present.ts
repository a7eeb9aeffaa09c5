import type { Visit } from '@countercheck/contracts';
import type { Prisma } from '@countercheck/prisma';

const named = { select: { id: true, name: true } };

/** The house of a visit, as far as a builder may read it too. */
export const visitHouse = {
  house: {
    select: {
      id: true,
      address: true,
      lot: true,
      stage: true,
      community: { select: { name: true } },
      builder: named,
    },
  },
} satisfies Prisma.VisitInclude;
export const visitParts = { ...visitHouse, rater: named } satisfies Prisma.VisitInclude;
export type VisitRow = Prisma.VisitGetPayload<{ include: typeof visitParts }>;

export function presentVisit(row: VisitRow): Visit {
  const { id, kind, state, rater, house, note, cause, notReadyKind } = row;
  return {
    id,
    kind,
    state,
    startsAt: row.startsAt.toISOString(),
    endsAt: row.endsAt.toISOString(),
    rater,
    house: { ...house, community: house.community.name },
    scope: row.scope as Visit['scope'],
    note,
    cause,
    notReadyKind,
    startedAt: row.startedAt?.toISOString() ?? null,
    submittedAt: row.submittedAt?.toISOString() ?? null,
  };
}
