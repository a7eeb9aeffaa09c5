import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { found } from '../../kernel/problems/app-error.ts';
import { pageAnswer, pageWindow } from '../../kernel/records/page.ts';
import { reportedHidden, tellsReported } from './blind.ts';
import { findHouses } from './find.ts';
import { loadHouse } from './load.ts';

export function readHouses(app: FastifyInstance): void {
  implementInTransaction(app, routes.houses.list, async ({ db, actor, query }) => {
    const { items, total } = await findHouses(db, actor, query);
    return pageAnswer(items, total, query);
  });

  implementInTransaction(app, routes.houses.show, ({ db, actor, params }) => loadHouse(db, actor, params.id));

  implementInTransaction(app, routes.houses.events, async ({ db, actor, params, query }) => {
    const house = found(await db.house.findUnique({ where: params, select: { stage: true } }), 'house');
    const hidden = await reportedHidden(db, actor, house);
    const where = { houseId: params.id };
    const rows = await db.event.findMany({
      where,
      omit: { content: true },
      orderBy: { id: 'desc' },
      ...pageWindow(query),
    });
    return pageAnswer(
      rows.map((row) => ({
        ...row,
        ...(hidden && tellsReported.has(row.action) ? { before: null, after: null, reason: null } : {}),
        id: String(row.id),
        at: row.at.toISOString(),
      })),
      await db.event.count({ where }),
      query,
    );
  });
}
