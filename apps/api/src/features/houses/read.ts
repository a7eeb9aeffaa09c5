import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { found } from '../../kernel/problems/app-error.ts';
import { pageAnswer, pageWindow } from '../../kernel/records/page.ts';
import { measuresAgain, tellsNothing } from '../booking-rules/index.ts';
import { reportedHidden, tellsReported } from './blind.ts';
import { findHouses } from './find.ts';
import { loadHouse } from './load.ts';

const nothingCounted = { pass: 0, fail: 0, exempt: 0, 'not-applicable': 0, waiting: 0 };

export function readHouses(app: FastifyInstance): void {
  implementInTransaction(app, routes.houses.list, async ({ db, actor, query }) => {
    const { items, total } = await findHouses(db, actor, query);
    return pageAnswer(items, total, query);
  });

  implementInTransaction(app, routes.houses.show, async ({ db, actor, params }) => {
    const house = await loadHouse(db, actor, params.id);
    const again = actor.role === 'rater' && (await measuresAgain(db, actor, params.id));
    return again ? { ...house, counts: nothingCounted } : house;
  });

  implementInTransaction(app, routes.houses.events, async ({ db, actor, params, query }) => {
    const house = found(
      await db.house.findUnique({ where: params, select: { id: true, stage: true } }),
      'house',
    );
    const hidden = await reportedHidden(db, actor, house);
    const again = await measuresAgain(db, actor, params.id);
    const where = { houseId: params.id, ...(again ? { action: { in: [...tellsNothing] } } : {}) };
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
