import type { FastifyInstance } from 'fastify';
import { routes, type readingBody } from '@countercheck/contracts';
import type * as z from 'zod';
import type { UserActor } from '../../kernel/actor.ts';
import type { Db } from '../../kernel/database/database.ts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { record } from '../../kernel/records/events.ts';
import { moveStage } from '../../kernel/records/stage.ts';
import { loadHouseFile, reassess } from '../assessment/index.ts';
import { refuseFirstRater } from '../booking-rules/index.ts';
import { freezeFigures } from '../installers/index.ts';
import type { VisitRow } from '../visits/index.ts';
import { checkReading } from './check-reading.ts';
import { checkPlace, keptAlready } from './earlier-reading.ts';
import { heldVisit, mustBeOpen, mustBeOwn } from './own-visit.ts';
import { refuseChanged } from './seen.ts';
import { sheetOf } from './sheet.ts';

type Body = z.output<typeof readingBody>;

/**
 * With the first reading the visit begins, and what the installer signed stays as it was signed. Gives the revision
 * of it that the reading is held against. A second measurement is held against none and leaves the house as it stands.
 */
async function begin(
  db: Db,
  actor: UserActor,
  requestId: string,
  visit: VisitRow,
  { figuresChosen, takenAt }: Body,
): Promise<number | null> {
  if (visit.state === 'booked') {
    const startedAt = new Date();
    await db.visit.update({ where: { id: visit.id }, data: { state: 'in_progress', startedAt } });
    await record(db, actor, requestId, {
      action: 'visit begun',
      recordType: 'visit',
      recordId: visit.id,
      houseId: visit.houseId,
      before: { state: visit.state },
      after: { state: 'in_progress', startedAt },
    });
  }
  if (visit.kind === 'quality') return null;
  const chosen =
    figuresChosen === undefined ? undefined : { revision: figuresChosen, readAt: new Date(takenAt) };
  const inForce = await freezeFigures(db, actor, requestId, visit.houseId, chosen);
  await moveStage(db, actor, requestId, visit.house, 'in_testing');
  return inForce;
}

async function keep(
  db: Db,
  actor: UserActor,
  requestId: string,
  visit: VisitRow,
  body: Body,
  { calibrationId, figuresRevision }: { calibrationId: string | null; figuresRevision: number | null },
): Promise<void> {
  const { id, test, subjectId, raw, entered, conditions, instrumentId, supersedesId } = body;
  const supersedeReason = supersedesId === null ? null : body.supersedeReason;
  await db.reading.create({
    data: {
      ...{ id, test, subjectId, raw, entered, conditions, instrumentId, supersedesId, supersedeReason },
      houseId: visit.houseId,
      visitId: visit.id,
      calibrationId,
      figuresRevision,
      takenById: actor.id,
      takenAt: new Date(body.takenAt),
    },
  });
  await record(db, actor, requestId, {
    action: supersedesId === null ? 'reading recorded' : 'reading superseded',
    recordType: 'reading',
    recordId: id,
    houseId: visit.houseId,
    ...(supersedesId === null ? {} : { before: { id: supersedesId } }),
    // Everything that a verdict rests on: what stands in the table can be held against it later.
    after: {
      ...{ id, test, subjectId, raw, entered, conditions, instrumentId, calibrationId, figuresRevision },
      ...{ visitId: visit.id, takenAt: body.takenAt },
    },
    reason: supersedeReason,
  });
}

export function takeReadings(app: FastifyInstance): void {
  const contract = routes.fieldwork.read;
  implementInTransaction(app, contract, async ({ db, actor, params, query, body, request }) => {
    const answer = (now: VisitRow) =>
      query.answer === 'receipt' ? { kept: body.id, visitState: now.state } : sheetOf(db, actor, now);
    const visit = await heldVisit(db, params.id);
    mustBeOwn(visit, actor);
    if (await keptAlready(db, visit, body)) return answer(visit);
    mustBeOpen(visit);
    await refuseChanged(db, visit, body.seen);
    if (visit.kind === 'quality') await refuseFirstRater(db, visit);
    const file = await loadHouseFile(db, visit.houseId);
    const { calibrationId } = await checkReading(db, visit, body, file);
    await checkPlace(db, visit, body);
    const figuresRevision = await begin(db, actor, request.id, visit, body);
    await keep(db, actor, request.id, visit, body, { calibrationId, figuresRevision });
    if (visit.kind !== 'quality') await reassess(db, actor, request.id, visit.houseId);
    return answer(await heldVisit(db, params.id));
  });
}
