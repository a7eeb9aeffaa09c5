import type { FastifyInstance } from 'fastify';
import type * as z from 'zod';
import { routes, type Visit } from '@countercheck/contracts';
import type { UserActor } from '../../kernel/actor.ts';
import type { Database, Db } from '../../kernel/database/database.ts';
import { implement } from '../../kernel/http/implement.ts';
import { record } from '../../kernel/records/events.ts';
import { companyOptions } from '../assessment/index.ts';
import { refuseFirstRater, refuseHeldRater } from '../booking-rules/index.ts';
import { bookableRater, checkTimes, holdRater, refuseSecondRater } from './checks.ts';
import { sayingWho, type WantedTime } from './double-booked.ts';
import { heldBooked } from './held.ts';
import { tellOfVisit } from './notices.ts';
import { presentVisit, visitParts } from './present.ts';

export interface MovingCall {
  database: Database;
  actor: UserActor;
  params: { id: string };
  body: z.output<typeof routes.visits.move.body>;
  /** for the events */
  request: { id: string };
}

export function moveVisits(app: FastifyInstance): void {
  implement(app, routes.visits.move, (call) => moveVisit(call));
}

/**
 * Moves a booked visit with all that is checked about it. `together` is done in the same transaction, with the
 * visit as it was: either both or nothing.
 */
export function moveVisit(
  { database, actor, params, body, request }: MovingCall,
  together?: (db: Db, before: { raterId: string; startsAt: Date }) => Promise<void>,
): Promise<Visit> {
  let wanted: WantedTime | undefined;
  const moving = () =>
    database.as(actor, async (db) => {
      const { timezone } = await companyOptions(db);
      const before = await heldBooked(db, params.id);
      await together?.(db, before);
      const times = {
        startsAt: body.startsAt === undefined ? before.startsAt : new Date(body.startsAt),
        endsAt: body.endsAt === undefined ? before.endsAt : new Date(body.endsAt),
      };
      const raterId = body.raterId ?? before.raterId;
      const note = body.note === undefined ? before.note : body.note;
      const moved =
        times.startsAt.getTime() !== before.startsAt.getTime() ||
        times.endsAt.getTime() !== before.endsAt.getTime();
      const other = raterId !== before.raterId;
      if (moved) checkTimes(times);
      if (other) await bookableRater(db, raterId);
      else await holdRater(db, raterId);
      if (moved || other) await refuseHeldRater(db, raterId, times.startsAt);
      if (other && before.kind === 'quality')
        await refuseFirstRater(db, { houseId: before.houseId, raterId });
      if (moved) await refuseSecondRater(db, { ...before, ...times }, timezone);
      wanted = { raterId, ...times, except: params.id };
      const row = await db.visit.update({
        where: params,
        data: { raterId, note, ...times },
        include: visitParts,
      });
      // The kit that was chosen for one rater is not another's.
      if (other) await db.visitInstrument.deleteMany({ where: { visitId: row.id } });
      await record(db, actor, request.id, {
        action: 'visit moved',
        recordType: 'visit',
        recordId: row.id,
        houseId: row.houseId,
        before: {
          raterId: before.raterId,
          startsAt: before.startsAt,
          endsAt: before.endsAt,
          note: before.note,
        },
        after: { raterId, ...times, note },
      });
      if (moved || other)
        await tellOfVisit(db, row, timezone, 'visit-moved', moved ? 'moved' : 'given to another rater', {
          ...(other ? { alsoRaterId: before.raterId } : {}),
        });
      return presentVisit(row);
    });
  return sayingWho(database, () => wanted, moving);
}
