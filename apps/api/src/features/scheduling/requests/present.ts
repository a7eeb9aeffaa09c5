import type { VisitRequest } from '@countercheck/contracts';
import type { Prisma } from '@countercheck/prisma';
import type { Actor } from '../../../kernel/actor.ts';
import { asSystem } from '../../../kernel/database/as-system.ts';
import type { Db } from '../../../kernel/database/database.ts';
import { isoDate } from '../../assessment/index.ts';
import { readinessOf } from '../readiness/points.ts';

const named = { select: { id: true, name: true } };
export const placeSelect = {
  id: true,
  address: true,
  lot: true,
  community: { select: { name: true } },
  builder: named,
} satisfies Prisma.HouseSelect;
export const requestParts = {
  house: {
    select: {
      ...placeSelect,
      submissions: { select: { signedAt: true }, orderBy: { revision: 'desc' as const }, take: 1 },
    },
  },
  points: true,
  avoidRater: named,
} satisfies Prisma.VisitRequestInclude;
type RequestRow = Prisma.VisitRequestGetPayload<{ include: typeof requestParts }>;

export const presentPlace = ({
  community,
  ...house
}: Prisma.HouseGetPayload<{ select: typeof placeSelect }>) => ({ ...house, community: community.name });

export function presentRequest(row: RequestRow): VisitRequest {
  const { id, kind, state, source, minutes, access, accessNote, avoidRater, note, visitId } = row;
  const { submissions, ...house } = row.house;
  return {
    ...{ id, kind, state, source, minutes, access, accessNote, avoidRater, note, visitId },
    ...{ openFrom: row.openFrom, openTo: row.openTo },
    house: presentPlace(house),
    earliestOn: isoDate(row.earliestOn),
    deadlineOn: row.deadlineOn ? isoDate(row.deadlineOn) : null,
    deadlineWhy: row.deadlineWhy,
    needs: row.needs as VisitRequest['needs'],
    withdrawnWhy: row.withdrawnWhy,
    askedByName: row.askedByName,
    askedAt: row.askedAt.toISOString(),
    readiness: readinessOf(kind, row.points, submissions[0]?.signedAt ?? null),
  };
}

/**
 * Requests that the actor was found to see, with what belongs to them: a builder may know that figures came in,
 * although not which.
 */
export async function loadRequests(db: Db, actor: Actor, ids: readonly string[]): Promise<VisitRequest[]> {
  const rows = await asSystem(db, actor, () =>
    db.visitRequest.findMany({ where: { id: { in: [...ids] } }, include: requestParts }),
  );
  const byId = new Map(rows.map((row) => [row.id, row]));
  return ids.flatMap((id) => {
    const row = byId.get(id);
    return row ? [presentRequest(row)] : [];
  });
}
