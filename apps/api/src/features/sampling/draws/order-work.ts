import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import { implementInTransaction } from '../../../kernel/http/implement.ts';
import { AppError, invalid } from '../../../kernel/problems/app-error.ts';
import { record } from '../../../kernel/records/events.ts';
import { companyOptions, dayAt } from '../../assessment/index.ts';
import { orderFileReviews, orderRetests } from '../../quality/index.ts';
import { findDraw, purposeOf } from './parts.ts';
import { presentDraw } from './present.ts';

/** Fourth step: what was drawn becomes work. */
export function orderDrawn(app: FastifyInstance): void {
  implementInTransaction(app, routes.sampling.orderWork, async ({ db, actor, params, body, request }) => {
    const draw = await findDraw(db, params.id);
    if (!draw.result) throw new AppError('draw-step', 'It is not drawn yet.');
    if (draw.orders) throw new AppError('draw-step', 'Its work was ordered already.');
    const { dueOn } = body;
    if (dueOn < dayAt(new Date(), (await companyOptions(db)).timezone))
      throw invalid('dueOn', 'This day has passed');
    const members = await db.drawMember.findMany({
      where: { drawId: draw.id },
      orderBy: { position: 'asc' },
    });
    const order = purposeOf(draw) === 'file-review' ? orderFileReviews : orderRetests;
    const made = await order(
      db,
      actor,
      request.id,
      members.map(({ houseId, raterId }) => ({
        ...{ houseId, raterId, drawId: draw.id, dueOn },
        source: 'draw' as const,
        reason: `Drawn: ${draw.title}`,
      })),
    );
    const ordered = made.filter(({ created }) => created).length;
    const already = made.length - ordered;
    await db.drawOrders.create({
      data: {
        ...{ drawId: draw.id, dueOn: new Date(dueOn), ordered, already },
        ...{ orderedById: actor.id, orderedBy: actor.name },
      },
    });
    await record(db, actor, request.id, {
      action: 'draw ordered',
      recordType: 'draw',
      recordId: draw.id,
      after: { dueOn, ordered, already },
    });
    return presentDraw(db, await findDraw(db, draw.id));
  });
}
