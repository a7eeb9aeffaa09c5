import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { AppError, found } from '../../kernel/problems/app-error.ts';
import { record } from '../../kernel/records/events.ts';
import { moveStage } from '../../kernel/records/stage.ts';
import { reassess } from '../assessment/index.ts';
import { houseSummaryInclude, lockHouse, presentHouseSummary, refuseSealed } from '../houses/index.ts';
import { measuredFirst } from './policy.ts';
import { presentFinding, presentReview, withFindings } from './present.ts';

/** The way back from the findings to the quality manager. */
export function answerFindings(app: FastifyInstance): void {
  implementInTransaction(app, routes.review.reviews, async ({ db, actor, params }) => {
    const house = found(await db.house.findUnique({ where: params, select: { id: true } }), 'house');
    if (actor.role === 'rater' && !(await measuredFirst(db, actor, house.id)))
      throw new AppError('not-found');
    const rows = await db.review.findMany({
      where: { houseId: house.id },
      include: withFindings,
      orderBy: [{ at: 'desc' }, { id: 'desc' }],
    });
    return rows.map(presentReview);
  });

  implementInTransaction(app, routes.review.answer, async ({ db, actor, params, body, request }) => {
    // A rater answers about houses he was in.
    const own =
      actor.role === 'rater'
        ? {
            review: { house: { visits: { some: { raterId: actor.id, kind: { not: 'quality' as const } } } } },
          }
        : {};
    const finding = found(
      await db.reviewFinding.findFirst({ where: { ...params, ...own }, include: { review: true } }),
      'finding',
    );
    const { houseId } = finding.review;
    refuseSealed(await lockHouse(db, houseId));
    const data = { answer: body.answer, answeredAt: new Date() };
    const row = await db.reviewFinding.update({ where: params, data });
    await record(db, actor, request.id, {
      action: 'finding answered',
      recordType: 'finding',
      recordId: row.id,
      houseId,
      before: { answer: finding.answer },
      after: { answer: row.answer },
    });
    return presentFinding(row);
  });

  implementInTransaction(app, routes.review.sendBack, async ({ db, actor, params, body, request }) => {
    const house = await lockHouse(db, params.id);
    if (actor.role === 'rater' && !(await measuredFirst(db, actor, house.id)))
      throw new AppError('not-found');
    if (house.stage !== 'returned') throw new AppError('conflict', 'The file was not returned.');
    const open = await db.visit.count({
      where: { houseId: house.id, state: { in: ['booked', 'in_progress'] } },
    });
    if (open > 0) throw new AppError('conflict', 'A visit is still open; submit it first.');
    await record(db, actor, request.id, {
      action: 'review requested',
      recordType: 'house',
      recordId: house.id,
      houseId: house.id,
      reason: body.note,
    });
    await reassess(db, actor, request.id, house.id);
    await moveStage(db, actor, request.id, house, 'in_review', body.note ?? undefined);
    return presentHouseSummary(
      await db.house.findUniqueOrThrow({ where: params, include: houseSummaryInclude }),
    );
  });
}
