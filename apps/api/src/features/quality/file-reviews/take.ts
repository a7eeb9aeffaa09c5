import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import { implementInTransaction } from '../../../kernel/http/implement.ts';
import { AppError } from '../../../kernel/problems/app-error.ts';
import { record } from '../../../kernel/records/events.ts';
import { refuseOwnWork } from '../../review/index.ts';
import { checklistOn } from './checklists.ts';
import { heldReview, mustBeMine, mustBeOpen, today } from './held-review.ts';
import { presentSummary } from './present.ts';
import { raiseAutomatic } from './raise.ts';
import { showReview } from './read.ts';

export function takeReviews(app: FastifyInstance): void {
  implementInTransaction(app, routes.fileReviews.take, async ({ db, actor, params, request }) => {
    const before = await heldReview(db, params.id);
    mustBeOpen(before);
    if (before.reviewerId === actor.id) return showReview(db, actor, params.id);
    if (before.reviewer) throw new AppError('conflict', `${before.reviewer.name} has taken this review.`);
    await refuseOwnWork(db, actor, before.houseId);
    const { key, version } = await checklistOn(await today(db));
    await db.fileReview.update({
      where: params,
      data: {
        reviewerId: actor.id,
        startedAt: before.startedAt ?? new Date(),
        // What was marked by one version is not finished by another.
        ...(before.checklistVersion ? {} : { checklistKey: key, checklistVersion: version }),
      },
    });
    await record(db, actor, request.id, {
      action: 'file review taken',
      recordType: 'file review',
      recordId: before.id,
      houseId: before.houseId,
      after: { reviewer: actor.name, checklist: before.checklistVersion ?? version },
    });
    await raiseAutomatic(db, actor, request.id, await heldReview(db, params.id));
    return showReview(db, actor, params.id);
  });

  implementInTransaction(app, routes.fileReviews.putBack, async ({ db, actor, params, request }) => {
    const before = await heldReview(db, params.id);
    mustBeMine(before, actor);
    await db.fileReview.update({ where: params, data: { reviewerId: null } });
    await record(db, actor, request.id, {
      action: 'file review given back',
      recordType: 'file review',
      recordId: before.id,
      houseId: before.houseId,
      before: { reviewer: actor.name },
    });
    return presentSummary(await heldReview(db, params.id), await today(db));
  });
}
