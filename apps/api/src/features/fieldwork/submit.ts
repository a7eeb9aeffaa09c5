import type { FastifyInstance } from 'fastify';
import { routes, type HouseStage } from '@countercheck/contracts';
import type { ItemVerdict } from '@countercheck/rules';
import type { Db } from '../../kernel/database/database.ts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { AppError } from '../../kernel/problems/app-error.ts';
import { record } from '../../kernel/records/events.ts';
import { moveStage } from '../../kernel/records/stage.ts';
import { reassess } from '../assessment/index.ts';
import { settleFailedItems } from '../failed-items/index.ts';
import { orderForNewFile } from '../second-looks/index.ts';
import { followVisit, presentVisit, type VisitRow } from '../visits/index.ts';
import { heldVisit, mustBeOpen, mustBeOwn } from './own-visit.ts';
import { inScope } from './scope.ts';
import { refuseChanged } from './seen.ts';
import { submitRetest } from './submit-retest.ts';
import { stopWorkOf, tellBuilder, tellOfficeOfStop } from './tell.ts';

interface Waiting {
  path: string;
  message: string;
}

/** What keeps the visit from being complete: undecided items, and at a reinspection those not read again. */
function stillWaiting(
  visit: VisitRow,
  scope: readonly ItemVerdict[],
  readAgain: (verdict: ItemVerdict) => boolean,
): Waiting[] {
  return scope.flatMap((each) => {
    const notAgain = visit.kind === 'reinspection' && each.status === 'fail' && !readAgain(each);
    if (each.status !== 'waiting' && !notAgain) return [];
    const why = notAgain ? 'It failed before and was not read again on this visit.' : each.reason;
    return [
      { path: `${each.item}/${each.subjectId}`, message: `${each.title}, ${each.subjectLabel}: ${why}` },
    ];
  });
}

async function nextStage(db: Db, visit: VisitRow, verdicts: readonly ItemVerdict[]): Promise<HouseStage> {
  const { houseId } = visit;
  const failed = await db.failedItem.count({ where: { houseId, state: { not: 'closed' } } });
  if (failed > 0) return 'corrections';
  if (!verdicts.some(({ status }) => status === 'waiting')) return 'in_review';
  const others = await db.visit.findMany({
    where: { houseId, id: { not: visit.id }, state: { in: ['booked', 'in_progress'] } },
    select: { state: true },
  });
  if (others.length === 0) return 'ready_to_book';
  return others.some(({ state }) => state === 'in_progress') ? 'in_testing' : 'booked';
}

export function submitVisits(app: FastifyInstance): void {
  implementInTransaction(app, routes.fieldwork.submit, async ({ db, actor, params, body, request }) => {
    const visit = await heldVisit(db, params.id);
    mustBeOwn(visit, actor);
    // The answer to the first submission may have been lost on the way; nothing happens twice.
    if (visit.state === 'submitted') return presentVisit(visit);
    mustBeOpen(visit);
    await refuseChanged(db, visit, body.seen);
    if (visit.kind === 'quality') {
      await submitRetest(db, actor, request.id, visit, body, app.config.publicUrl);
      return presentVisit(await heldVisit(db, visit.id));
    }
    const { id: visitId, houseId } = visit;
    const { verdicts } = await reassess(db, actor, request.id, houseId);
    const scope = inScope(visit, verdicts);
    const own = await db.reading.findMany({ where: { visitId }, select: { id: true } });
    const taken = new Set(own.map(({ id }) => id));
    const readAgain = (verdict: ItemVerdict) => verdict.trace.readingIds.some((id) => taken.has(id));
    const waiting = stillWaiting(visit, scope, readAgain);
    if (waiting.length > 0 && !body.acceptWaiting)
      throw new AppError('visit-not-complete', waiting.map(({ message }) => message).join(' '), waiting);

    const submittedAt = new Date();
    const note = body.note ?? visit.note;
    await db.visit.update({ where: { id: visitId }, data: { state: 'submitted', submittedAt, note } });
    const settling = {
      ...{ houseId, visitId, verdicts, readAgain },
      inScope: (verdict: ItemVerdict) => scope.includes(verdict),
    };
    const failed = await settleFailedItems(db, actor, request.id, settling);
    await db.reinspectionRequest.updateMany({ where: { visitId, state: 'booked' }, data: { state: 'done' } });
    await followVisit(db, visitId, 'submitted');
    const stopWork = stopWorkOf(scope);
    await record(db, actor, request.id, {
      action: 'visit submitted',
      recordType: 'visit',
      recordId: visitId,
      houseId,
      before: { state: visit.state },
      after: {
        state: 'submitted',
        failed: failed.map(({ item, subjectLabel, reason }) => ({ item, subjectLabel, reason })),
        waiting: waiting.map(({ message }) => message),
        stopWork,
      },
      reason: body.note,
    });
    const stage = await nextStage(db, visit, verdicts);
    await moveStage(db, actor, request.id, visit.house, stage);
    if (stage === 'in_review') await orderForNewFile(db, request.id, houseId);
    await tellBuilder(db, visit, failed, app.config.publicUrl);
    await tellOfficeOfStop(db, visit, stopWork);
    return presentVisit(await heldVisit(db, visitId));
  });
}
