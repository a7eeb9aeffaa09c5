import type { FastifyInstance } from 'fastify';
import { routes, type ReinspectionRequest } from '@countercheck/contracts';
import type { Prisma } from '@countercheck/prisma';
import type { Db } from '../../kernel/database/database.ts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { pageAnswer, pageWindow } from '../../kernel/records/page.ts';

export const requestParts = {
  house: { select: { id: true, address: true, lot: true, builder: { select: { name: true } } } },
} satisfies Prisma.ReinspectionRequestInclude;
type RequestRow = Prisma.ReinspectionRequestGetPayload<{ include: typeof requestParts }>;

async function openItems(db: Db, houseIds: string[]): Promise<Map<string, number>> {
  const rows = await db.failedItem.groupBy({
    by: ['houseId'],
    where: { houseId: { in: houseIds }, state: { not: 'closed' } },
    _count: true,
  });
  return new Map(rows.map(({ houseId, _count }) => [houseId, _count]));
}

export function presentRequest(row: RequestRow, items: number): ReinspectionRequest {
  const { id, state, note, askedByName, visitId, house } = row;
  return {
    ...{ id, state, note, askedByName, visitId, items },
    earliestOn: row.earliestOn?.toISOString().slice(0, 10) ?? null,
    askedAt: row.askedAt.toISOString(),
    house: { id: house.id, address: house.address, lot: house.lot, builder: house.builder.name },
  };
}

export function listRequests(app: FastifyInstance): void {
  implementInTransaction(app, routes.failedItems.requests, async ({ db, query }) => {
    const { state, houseId } = query;
    const where: Prisma.ReinspectionRequestWhereInput = {
      ...(state === undefined ? {} : { state }),
      ...(houseId === undefined ? {} : { houseId }),
    };
    const rows = await db.reinspectionRequest.findMany({
      where,
      include: requestParts,
      // What is still to be booked comes first; the states are stored in the order of the work.
      orderBy: [{ state: 'asc' }, { askedAt: 'asc' }, { id: 'asc' }],
      ...pageWindow(query),
    });
    const open = await openItems(
      db,
      rows.map((row) => row.houseId),
    );
    return pageAnswer(
      rows.map((row) => presentRequest(row, open.get(row.houseId) ?? 0)),
      await db.reinspectionRequest.count({ where }),
      query,
    );
  });
}
