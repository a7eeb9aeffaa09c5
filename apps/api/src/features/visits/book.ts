import { Prisma } from '@countercheck/prisma';
import type { FastifyInstance } from 'fastify';
import type * as z from 'zod';
import { type bookBody, routes, type Visit } from '@countercheck/contracts';
import type { UserActor } from '../../kernel/actor.ts';
import type { Database, Db } from '../../kernel/database/database.ts';
import { implement } from '../../kernel/http/implement.ts';
import { invalid } from '../../kernel/problems/app-error.ts';
import { record } from '../../kernel/records/events.ts';
import { moveStage } from '../../kernel/records/stage.ts';
import { companyOptions, reassess } from '../assessment/index.ts';
import { refuseHeldRater, refuseMeasuringTwice, takeUpRetest } from '../booking-rules/index.ts';
import { lockHouse, refuseSealed } from '../houses/index.ts';
import { bookableRater, checkTimes, refuseSecondRater } from './checks.ts';
import { sayingWho } from './double-booked.ts';
import { tellOfVisit } from './notices.ts';
import { presentVisit, visitParts } from './present.ts';
import { answerRequest, reinspectionScope } from './reinspection.ts';
import { requestAnswered } from './requests/answered.ts';
import { stageWhenBooked } from './stages.ts';

export interface BookingCall {
  database: Database;
  actor: UserActor;
  body: z.output<typeof bookBody>;
  /** for the events */
  request: { id: string };
}

export function bookVisits(app: FastifyInstance): void {
  implement(app, routes.visits.book, (call) => bookVisit(call));
}

/**
 * Books a visit with all that is checked about it. `together` is done in the same transaction: either both or
 * nothing.
 */
export function bookVisit(
  { database, actor, body, request }: BookingCall,
  together?: (db: Db, visitId: string) => Promise<void>,
): Promise<Visit> {
  const { houseId, raterId, kind, note, reinspectionRequestId, visitRequestId } = body;
  const times = { startsAt: new Date(body.startsAt), endsAt: new Date(body.endsAt) };
  checkTimes(times);
  if (reinspectionRequestId !== null && kind !== 'reinspection')
    throw invalid('kind', 'A request for a reinspection is answered by a reinspection.');
  const booking = () =>
    database.as(actor, async (db) => {
      const { timezone } = await companyOptions(db);
      const house = await lockHouse(db, houseId);
      // A re-test leaves the sealed file as it is: what it reads is compared and never judged.
      if (kind !== 'quality') refuseSealed(house);
      await bookableRater(db, raterId);
      await refuseHeldRater(db, raterId, times.startsAt);
      await refuseMeasuringTwice(db, { houseId, raterId, kind });
      await refuseSecondRater(db, { ...times, houseId, kind }, timezone);
      const asked = await requestAnswered(db, actor, request.id, { houseId, kind, id: visitRequestId });
      const scope = kind === 'reinspection' ? await reinspectionScope(db, houseId) : null;
      const row = await db.visit.create({
        data: { houseId, raterId, kind, ...times, note, scope: scope ?? Prisma.DbNull },
        include: visitParts,
      });
      if (kind === 'quality') await takeUpRetest(db, actor, request.id, row, asked.retestId);
      if (asked.state === 'open')
        await db.visitRequest.update({
          where: { id: asked.id },
          data: { state: 'booked', visitId: row.id },
        });
      if (kind === 'reinspection') await answerRequest(db, houseId, row.id, reinspectionRequestId);
      await record(db, actor, request.id, {
        action: 'visit booked',
        recordType: 'visit',
        recordId: row.id,
        houseId,
        after: { kind, raterId, rater: row.rater.name, ...times, note, scope },
      });
      const stage = stageWhenBooked(house.stage, kind);
      await moveStage(db, actor, request.id, house, stage);
      // A house from a file has no verdicts yet; its rater will want them.
      if (house.stage !== 'released') await reassess(db, actor, request.id, houseId);
      await tellOfVisit(db, row, timezone, 'visit-booked', 'booked');
      await together?.(db, row.id);
      return presentVisit({ ...row, house: { ...row.house, stage } });
    });
  return sayingWho(database, [{ raterId, ...times }], booking);
}
