import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import type { Prisma } from '@countercheck/prisma';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { found } from '../../kernel/problems/app-error.ts';
import { pageAnswer, pageWindow } from '../../kernel/records/page.ts';
import { presentRecall, presentRecallHouse, recallHouseParts, recallParts } from './present.ts';

const narrowed = {
  revisit: { revisit: true },
  flipped: { flipped: true },
  sealed: { sealed: true, OR: [{ revisit: true }, { flipped: true }] },
} satisfies Record<string, Prisma.RecallHouseWhereInput>;

export function readRecalls(app: FastifyInstance): void {
  implementInTransaction(app, routes.recall.list, async ({ db, query }) => {
    const rows = await db.recall.findMany({
      include: recallParts,
      orderBy: [{ run: { askedAt: 'desc' } }, { id: 'desc' }],
      ...pageWindow(query),
    });
    return pageAnswer(rows.map(presentRecall), await db.recall.count(), query);
  });

  implementInTransaction(app, routes.recall.show, async ({ db, params }) =>
    presentRecall(found(await db.recall.findUnique({ where: params, include: recallParts }), 'recall')),
  );

  implementInTransaction(app, routes.recall.houses, async ({ db, params, query }) => {
    const { run } = found(await db.recall.findUnique({ where: params, include: { run: true } }), 'recall');
    // What a run has found so far is no result.
    if (run.state !== 'done') return pageAnswer([], 0, query);
    const where = { recallId: params.id, ...(query.show ? narrowed[query.show] : {}) };
    const rows = await db.recallHouse.findMany({
      where,
      include: recallHouseParts,
      orderBy: [{ revisit: 'desc' }, { flipped: 'desc' }, { houseId: 'asc' }],
      ...pageWindow(query),
    });
    return pageAnswer(rows.map(presentRecallHouse), await db.recallHouse.count({ where }), query);
  });
}
