import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import type { Prisma } from '@countercheck/prisma';
import { implementInTransaction } from '../../../kernel/http/implement.ts';
import { found } from '../../../kernel/problems/app-error.ts';
import { pageAnswer, pageWindow } from '../../../kernel/records/page.ts';
import { loadRequests } from './present.ts';

export function readRequests(app: FastifyInstance): void {
  implementInTransaction(app, routes.scheduling.requests, async ({ db, actor, query }) => {
    const { state, kind, houseId, builderId } = query;
    const where: Prisma.VisitRequestWhereInput = {
      ...(state ? { state } : {}),
      ...(kind ? { kind } : {}),
      ...(houseId ? { houseId } : {}),
      ...(builderId ? { house: { builderId } } : {}),
    };
    const rows = await db.visitRequest.findMany({
      where,
      select: { id: true },
      orderBy: [
        { state: 'asc' },
        { deadlineOn: { sort: 'asc', nulls: 'last' } },
        { earliestOn: 'asc' },
        { id: 'asc' },
      ],
      ...pageWindow(query),
    });
    const ids = rows.map(({ id }) => id);
    return pageAnswer(await loadRequests(db, actor, ids), await db.visitRequest.count({ where }), query);
  });

  implementInTransaction(app, routes.scheduling.request, async ({ db, actor, params }) => {
    const row = found(await db.visitRequest.findUnique({ where: params, select: { id: true } }), 'request');
    const [request] = await loadRequests(db, actor, [row.id]);
    return found(request, 'request');
  });
}
