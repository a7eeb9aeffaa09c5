import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { AppError } from '../../kernel/problems/app-error.ts';
import { record } from '../../kernel/records/events.ts';
import { moveStage } from '../../kernel/records/stage.ts';
import { giveRetestBack } from '../booking-rules/index.ts';
import { followVisit, presentVisit, stageWhenCancelled } from '../visits/index.ts';
import { heldVisit, mustBeOpen, mustBeOwn } from './own-visit.ts';
import { refuseChanged } from './seen.ts';

export function reportNotReady(app: FastifyInstance): void {
  implementInTransaction(app, routes.fieldwork.notReady, async ({ db, actor, params, body, request }) => {
    const visit = await heldVisit(db, params.id);
    mustBeOwn(visit, actor);
    if (visit.state === 'not_ready') return presentVisit(visit);
    mustBeOpen(visit);
    await refuseChanged(db, visit, body.seen);
    const { id: visitId, houseId } = visit;
    if ((await db.reading.count({ where: { visitId } })) > 0)
      throw new AppError('visit-closed', 'Readings were taken on this visit; submit it instead.');
    await db.visit.update({
      where: { id: visitId },
      data: { state: 'not_ready', cause: body.cause, notReadyKind: body.kind },
    });
    // The builder's request stands; it waits for another visit.
    await db.reinspectionRequest.updateMany({
      where: { visitId, state: 'booked' },
      data: { state: 'asked', visitId: null },
    });
    await giveRetestBack(db, actor, request.id, visit);
    await followVisit(db, visitId, 'not_ready');
    await record(db, actor, request.id, {
      action: 'visit not ready',
      recordType: 'visit',
      recordId: visitId,
      houseId,
      before: { state: visit.state },
      after: { state: 'not_ready', kind: body.kind },
      reason: body.cause,
    });
    await moveStage(
      db,
      actor,
      request.id,
      visit.house,
      await stageWhenCancelled(db, visit.house),
      body.cause,
    );
    return presentVisit(await heldVisit(db, visitId));
  });
}
