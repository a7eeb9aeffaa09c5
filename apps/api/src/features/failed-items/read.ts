import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import type { Prisma } from '@countercheck/prisma';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { found } from '../../kernel/problems/app-error.ts';
import { pageAnswer, pageWindow } from '../../kernel/records/page.ts';
import { failedItemParts, presentFailedItem } from './present.ts';

export function readFailedItems(app: FastifyInstance): void {
  implementInTransaction(app, routes.failedItems.list, async ({ db, query }) => {
    const { state, houseId, builderId, trade } = query;
    const where: Prisma.FailedItemWhereInput = {
      ...(state === undefined ? {} : { state: state === 'not_closed' ? { not: 'closed' } : state }),
      ...(houseId === undefined ? {} : { houseId }),
      ...(builderId === undefined ? {} : { house: { builderId } }),
      ...(trade === undefined ? {} : { trade }),
    };
    const rows = await db.failedItem.findMany({
      where,
      include: failedItemParts,
      orderBy: [{ openedAt: 'desc' }, { id: 'asc' }],
      ...pageWindow(query),
    });
    return pageAnswer(rows.map(presentFailedItem), await db.failedItem.count({ where }), query);
  });

  implementInTransaction(app, routes.failedItems.show, async ({ db, params }) =>
    presentFailedItem(
      found(await db.failedItem.findUnique({ where: params, include: failedItemParts }), 'failed item'),
    ),
  );
}
