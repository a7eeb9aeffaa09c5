import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import type { PlannedVisit } from '@countercheck/prisma';
import type { UserActor } from '../../kernel/actor.ts';
import type { Database, Db } from '../../kernel/database/database.ts';
import { implement, implementInTransaction } from '../../kernel/http/implement.ts';
import { AppError, found } from '../../kernel/problems/app-error.ts';
import { record } from '../../kernel/records/events.ts';
import { bookVisit, type Move, moveVisits } from '../visits/index.ts';
import { exchanges } from './exchanges.ts';
import { planParts, presentPlan } from './present.ts';

interface Deciding {
  database: Database;
  actor: UserActor;
  request: { id: string };
}

const changed = () =>
  new AppError('conflict', 'This visit was moved, begun or cancelled since the plan was made. Plan again.');

/** Marks a proposal in the transaction that books it, so that it is accepted once. */
async function accepted(db: Db, stop: PlannedVisit, actor: UserActor, visitId: string): Promise<void> {
  const { count } = await db.plannedVisit.updateMany({
    where: { id: stop.id, state: 'proposed' },
    data: { state: 'accepted', visitId, refusal: null, decidedBy: actor.name, decidedAt: new Date() },
  });
  if (count === 0) throw new AppError('conflict', 'Somebody has decided about this proposal meanwhile.');
}

/** Books or moves what was proposed, by the same functions and checks as by hand. */
async function carryOut(deciding: Deciding, stops: readonly PlannedVisit[]): Promise<void> {
  const [first] = stops;
  if (first?.visitId === null) return book(deciding, first);
  await moveVisits(
    deciding,
    stops.map((stop) => moveOf(deciding, stop)),
  );
}

async function book({ database, actor, request }: Deciding, stop: PlannedVisit): Promise<void> {
  const { raterId, houseId, kind, requestId } = stop;
  const body = { houseId, raterId, kind, ...timesOf(stop), note: null };
  await bookVisit(
    { database, actor, request, body: { ...body, reinspectionRequestId: null, visitRequestId: requestId } },
    (db, visitId) => accepted(db, stop, actor, visitId),
  );
}

function moveOf({ actor }: Deciding, stop: PlannedVisit): Move {
  const visitId = stop.visitId!;
  return {
    params: { id: visitId },
    body: { raterId: stop.raterId, ...timesOf(stop) },
    async together(db, before) {
      const same =
        before.raterId === stop.beforeRaterId && before.startsAt.getTime() === stop.beforeStartsAt?.getTime();
      if (!same) throw changed();
      await accepted(db, stop, actor, visitId);
    },
  };
}

const timesOf = ({ startsAt, endsAt }: PlannedVisit) => ({
  startsAt: startsAt.toISOString(),
  endsAt: endsAt.toISOString(),
});

const exchangeWords = 'It exchanges its time with others, and they could not all move. ';

/** A refusal of one field says what is wrong with the field. */
const inWords = (error: AppError) => error.fields?.map(({ message }) => message).join(' ') ?? error.message;

/**
 * Each visit for itself, in the order of time. What is refused because another one of the plan still stands there
 * is tried again once that one has moved; those that stand in each other's way move together.
 */
async function acceptAll(deciding: Deciding, stops: readonly PlannedVisit[]): Promise<void> {
  const waiting = new Set(stops);
  const refused = new Map<string, string>();
  const attempt = async (group: readonly PlannedVisit[]): Promise<boolean> => {
    try {
      await carryOut(deciding, group);
      for (const stop of group) {
        refused.delete(stop.id);
        waiting.delete(stop);
      }
      return true;
    } catch (error) {
      if (!(error instanceof AppError)) throw error;
      for (const stop of group) {
        refused.set(stop.id, (group.length > 1 ? exchangeWords : '') + inWords(error));
        if (error.code !== 'rater-double-booked') waiting.delete(stop);
      }
      return false;
    }
  };
  for (let before = Infinity; waiting.size > 0 && waiting.size < before;) {
    before = waiting.size;
    for (const stop of [...waiting]) await attempt([stop]);
    if (waiting.size < before) continue;
    for (const group of exchanges([...waiting])) if (await attempt(group)) break;
  }
  await deciding.database.as(deciding.actor, async (db) => {
    for (const [id, refusal] of refused)
      await db.plannedVisit.updateMany({ where: { id, state: 'proposed' }, data: { refusal } });
  });
}

export function decideProposals(app: FastifyInstance): void {
  implement(app, routes.planning.accept, async ({ database, actor, params, body, request }) => {
    const stops = await database.as(actor, async (db) => {
      await planThatIsDone(db, params.id);
      return db.plannedVisit.findMany({
        where: { planId: params.id, id: { in: body.stopIds }, state: 'proposed' },
        orderBy: [{ startsAt: 'asc' }, { id: 'asc' }],
      });
    });
    if (stops.length === 0) throw new AppError('conflict', 'None of these proposals waits for a decision.');
    await acceptAll({ database, actor, request }, stops);
    return database.as(actor, async (db) => {
      const row = await db.weekPlan.findUniqueOrThrow({ where: params, include: planParts });
      const ids = stops.map(({ id }) => id);
      const done = await db.plannedVisit.count({ where: { id: { in: ids }, state: 'accepted' } });
      await record(db, actor, request.id, {
        action: 'planned visits accepted',
        recordType: 'week plan',
        recordId: params.id,
        after: { accepted: done, refused: stops.length - done },
      });
      return presentPlan(db, row);
    });
  });

  implementInTransaction(app, routes.planning.reject, async ({ db, actor, params, body, request }) => {
    await planThatIsDone(db, params.id);
    const { count } = await db.plannedVisit.updateMany({
      where: { planId: params.id, id: { in: body.stopIds }, state: 'proposed' },
      data: { state: 'rejected', decidedBy: actor.name, decidedAt: new Date() },
    });
    if (count === 0) throw new AppError('conflict', 'None of these proposals waits for a decision.');
    await record(db, actor, request.id, {
      action: 'planned visits rejected',
      recordType: 'week plan',
      recordId: params.id,
      after: { rejected: count },
    });
    return presentPlan(db, await db.weekPlan.findUniqueOrThrow({ where: params, include: planParts }));
  });
}

async function planThatIsDone(db: Db, id: string): Promise<void> {
  const row = found(await db.weekPlan.findUnique({ where: { id }, include: { run: true } }), 'plan');
  if (row.run.state !== 'done')
    throw new AppError('conflict', 'The plan is not done; there is nothing to decide.');
}
