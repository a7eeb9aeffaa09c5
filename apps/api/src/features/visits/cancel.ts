import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { record } from '../../kernel/records/events.ts';
import { moveStage } from '../../kernel/records/stage.ts';
import { companyOptions } from '../assessment/index.ts';
import { giveRetestBack } from '../booking-rules/index.ts';
import { heldBooked } from './held.ts';
import { tellOfVisit } from './notices.ts';
import { presentVisit, visitParts } from './present.ts';
import { askAgain } from './reinspection.ts';
import { followVisit } from './requests/follow.ts';
import { stageWhenCancelled } from './stages.ts';

export function cancelVisits(app: FastifyInstance): void {
  implementInTransaction(app, routes.visits.cancel, async ({ db, actor, params, body, request }) => {
    const { timezone } = await companyOptions(db);
    const before = await heldBooked(db, params.id);
    const row = await db.visit.update({
      where: params,
      data: { state: 'cancelled', cause: body.cause },
      include: visitParts,
    });
    await askAgain(db, row.id);
    await giveRetestBack(db, actor, request.id, row);
    await followVisit(db, row.id, row.state);
    await record(db, actor, request.id, {
      action: 'visit cancelled',
      recordType: 'visit',
      recordId: row.id,
      houseId: row.houseId,
      before: { state: before.state },
      after: { state: row.state },
      reason: body.cause,
    });
    const stage = await stageWhenCancelled(db, row.house);
    await moveStage(db, actor, request.id, row.house, stage, body.cause);
    await tellOfVisit(db, row, timezone, 'visit-cancelled', 'cancelled', { cause: body.cause });
    return presentVisit({ ...row, house: { ...row.house, stage } });
  });
}
