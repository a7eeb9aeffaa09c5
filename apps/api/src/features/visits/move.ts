import type { FastifyInstance } from 'fastify';
import type * as z from 'zod';
import { routes, type Visit } from '@countercheck/contracts';
import type { UserActor } from '../../kernel/actor.ts';
import type { Database, Db } from '../../kernel/database/database.ts';
import { implement } from '../../kernel/http/implement.ts';
import { record } from '../../kernel/records/events.ts';
import { companyOptions } from '../assessment/index.ts';
import { refuseFirstRater, refuseHeldRater, refuseMeasuringTwice } from '../booking-rules/index.ts';
import { bookableRater, checkTimes, holdRater, refuseSecondRater } from './checks.ts';
import { sayingWho, type WantedTime } from './double-booked.ts';
import { heldMovable } from './held.ts';
import { tellOfVisit } from './notices.ts';
import { presentVisit, visitParts } from './present.ts';

interface Mover {
  database: Database;
  actor: UserActor;
  /** for the events */
  request: { id: string };
}

export interface Move {
  params: { id: string };
  body: z.output<typeof routes.visits.move.body>;
  /** done in the same transaction, with the visit as it was: either both or nothing */
  together?: (db: Db, before: { raterId: string; startsAt: Date }) => Promise<void>;
}

export function keepMoving(app: FastifyInstance): void {
  implement(app, routes.visits.move, (call) => moveVisit(call, { params: call.params, body: call.body }));
}

/** Moves a booked visit with all that is checked about it. */
function moveVisit({ database, actor, request }: Mover, move: Move): Promise<Visit> {
  const wanted: WantedTime[] = [];
  const moving = () => database.as(actor, (db) => moveIn(db, { actor, request }, move, wanted));
  return sayingWho(database, wanted, moving);
}

/**
 * Moves booked visits with all that is checked about each; either all of them move or none. Whether a rater is in two
 * places is checked when all have moved, because of visits that exchange their times with each other none could go
 * first.
 */
export function moveVisits({ database, actor, request }: Mover, moves: readonly Move[]): Promise<void> {
  const wanted: WantedTime[] = [];
  const moving = () =>
    database.as(actor, async (db) => {
      await holdTogether(db, moves);
      await db.$executeRaw`SET CONSTRAINTS visits_rater_not_twice DEFERRED`;
      for (const move of moves) await moveIn(db, { actor, request }, move, wanted);
      await db.$executeRaw`SET CONSTRAINTS visits_rater_not_twice IMMEDIATE`;
    });
  return sayingWho(database, wanted, moving);
}

/** In one order always, so that two who move the same visits at the same moment wait and do not block each other. */
async function holdTogether(db: Db, moves: readonly Move[]): Promise<void> {
  const visitIds = moves.map(({ params }) => params.id);
  await db.$queryRaw`SELECT v.id FROM visits v JOIN houses h ON h.id = v.house_id
    WHERE v.id = ANY(${visitIds}::uuid[]) ORDER BY v.id FOR UPDATE`;
  const raterIds = new Set(moves.flatMap(({ body }) => body.raterId ?? []));
  for (const raterId of [...raterIds].sort()) await holdRater(db, raterId);
}

async function moveIn(
  db: Db,
  { actor, request }: Pick<Mover, 'actor' | 'request'>,
  { params, body, together }: Move,
  wanted: WantedTime[],
): Promise<Visit> {
  const { timezone } = await companyOptions(db);
  const before = await heldMovable(db, params.id, body.raterId);
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
  if (other) {
    const { houseId, kind } = before;
    if (kind === 'quality') await refuseFirstRater(db, { houseId, raterId });
    await refuseMeasuringTwice(db, { houseId, raterId, kind });
  }
  if (moved) await refuseSecondRater(db, { ...before, ...times }, timezone);
  wanted.push({ raterId, ...times, visitId: params.id });
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
}
