import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import type { Prisma } from '@countercheck/prisma';
import type { UserActor } from '../../kernel/actor.ts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { found } from '../../kernel/problems/app-error.ts';
import { pageAnswer, pageWindow } from '../../kernel/records/page.ts';
import { openRetest } from '../booking-rules/index.ts';
import { failedItemParts, presentFailedItems } from './present.ts';

/** What failed first is kept from a rater who measures the house again. */
const notBlind = (actor: UserActor): Prisma.FailedItemWhereInput =>
  actor.role === 'rater' ? { house: { visits: { none: openRetest(actor) } } } : {};

export function readFailedItems(app: FastifyInstance): void {
  implementInTransaction(app, routes.failedItems.list, async ({ db, actor, query }) => {
    const { state, houseId, builderId, trade } = query;
    const where: Prisma.FailedItemWhereInput = {
      ...(state === undefined ? {} : { state: state === 'not_closed' ? { not: 'closed' } : state }),
      ...(houseId === undefined ? {} : { houseId }),
      ...(builderId === undefined ? {} : { house: { builderId } }),
      ...(trade === undefined ? {} : { trade }),
      AND: notBlind(actor),
    };
    const rows = await db.failedItem.findMany({
      where,
      include: failedItemParts,
      orderBy: [{ openedAt: 'desc' }, { id: 'asc' }],
      ...pageWindow(query),
    });
    return pageAnswer(await presentFailedItems(db, rows), await db.failedItem.count({ where }), query);
  });

  implementInTransaction(app, routes.failedItems.show, async ({ db, actor, params }) => {
    const where = { ...params, ...notBlind(actor) };
    const row = found(await db.failedItem.findFirst({ where, include: failedItemParts }), 'failed item');
    return (await presentFailedItems(db, [row]))[0]!;
  });
}
