import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import type { Db } from '../../kernel/database/database.ts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { AppError } from '../../kernel/problems/app-error.ts';
import { record } from '../../kernel/records/events.ts';
import { moveStage } from '../../kernel/records/stage.ts';
import { answeredSince, undoSettlement } from '../failed-items/index.ts';
import { refuseSealed } from '../houses/index.ts';
import { followVisit, type VisitRow } from '../visits/index.ts';
import { heldVisit, mustBeOwn } from './own-visit.ts';

/** Nobody may have built on what was submitted; a file that came back from review is open for this very purpose. */
async function refuseWhenActedOn(db: Db, visit: VisitRow, submittedAt: Date): Promise<void> {
  const { houseId } = visit;
  const later = await db.visit.count({
    where: {
      houseId,
      id: { not: visit.id },
      OR: [{ startedAt: { gt: submittedAt } }, { submittedAt: { gt: submittedAt } }],
    },
  });
  if (later > 0) throw new AppError('conflict', 'A later visit has been made to this house.');
  if (await answeredSince(db, houseId, submittedAt))
    throw new AppError('conflict', 'The builder has answered to what failed on this visit.');
  if (visit.house.stage === 'returned') return;
  const reviews = await db.review.count({ where: { houseId, at: { gt: submittedAt } } });
  if (reviews > 0) throw new AppError('conflict', 'The quality manager has acted on this visit.');
}

export function reopenVisits(app: FastifyInstance): void {
  implementInTransaction(app, routes.fieldwork.reopen, async ({ db, actor, params, body, request }) => {
    const visit = await heldVisit(db, params.id);
    if (actor.role === 'rater') mustBeOwn(visit, actor);
    if (visit.kind === 'quality')
      throw new AppError(
        'conflict',
        'What was measured a second time has been compared; order another re-test.',
      );
    refuseSealed(visit.house);
    if (visit.state !== 'submitted' || visit.submittedAt === null)
      throw new AppError('conflict', 'Only a submitted visit can be opened again.');
    await refuseWhenActedOn(db, visit, visit.submittedAt);
    const data = { state: 'in_progress' as const, submittedAt: null };
    await db.visit.update({ where: { id: visit.id }, data });
    await undoSettlement(db, actor, visit, body.reason);
    await db.reinspectionRequest.updateMany({
      where: { visitId: visit.id, state: 'done' },
      data: { state: 'booked' },
    });
    await followVisit(db, visit.id, 'in_progress');
    await record(db, actor, request.id, {
      action: 'visit reopened',
      recordType: 'visit',
      recordId: visit.id,
      houseId: visit.houseId,
      before: { state: visit.state, submittedAt: visit.submittedAt },
      after: { state: 'in_progress' },
      reason: body.reason,
    });
    await moveStage(db, actor, request.id, visit.house, 'in_testing', body.reason);
    return { ok: true as const };
  });
}
