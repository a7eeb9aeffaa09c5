import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import { implementInTransaction } from '../../../kernel/http/implement.ts';
import { pageAnswer, pageWindow } from '../../../kernel/records/page.ts';
import { namesOf } from '../names.ts';
import { drawParts, findDraw, purposeOf } from './parts.ts';
import { presentDraw, presentDrawSummary } from './present.ts';
import { workOn } from './work.ts';

const houseParts = {
  house: { include: { builder: { select: { name: true } }, community: { select: { name: true } } } },
};

export function readDraws(app: FastifyInstance): void {
  implementInTransaction(app, routes.sampling.draws, async ({ db, query }) => {
    const rows = await db.draw.findMany({
      include: drawParts,
      orderBy: [{ committedAt: 'desc' }, { id: 'desc' }],
      ...pageWindow(query),
    });
    return pageAnswer(rows.map(presentDrawSummary), await db.draw.count(), query);
  });

  implementInTransaction(app, routes.sampling.showDraw, async ({ db, params }) =>
    presentDraw(db, await findDraw(db, params.id)),
  );

  implementInTransaction(app, routes.sampling.members, async ({ db, params, query }) => {
    const draw = await findDraw(db, params.id);
    const where = { drawId: draw.id };
    const rows = await db.drawMember.findMany({
      ...{ where, include: houseParts, orderBy: { position: 'asc' } },
      ...pageWindow(query),
    });
    const houseIds = rows.map(({ houseId }) => houseId);
    // Before anything was ordered, an older review is no work of this draw.
    const work = draw.orders ? await workOn(db, purposeOf(draw), houseIds) : new Map();
    const names = await namesOf(db, { users: rows.map(({ raterId }) => raterId), builders: [] });
    return pageAnswer(
      rows.map(({ position, houseId, house, raterId, chanceOf, chanceIn }) => {
        const done = work.get(houseId);
        return {
          ...{ position: position + 1, houseId, address: house.address, lot: house.lot },
          ...{ community: house.community.name, builder: house.builder.name },
          rater: names.user(raterId) ?? '–',
          chance: Number(chanceOf) / Number(chanceIn),
          work: done ? { id: done.id, state: done.state, outcome: done.outcome } : null,
        };
      }),
      await db.drawMember.count({ where }),
      query,
    );
  });
}
