import type { FastifyInstance } from 'fastify';
import { routes, type RaterHold } from '@countercheck/contracts';
import type { Prisma } from '@countercheck/prisma';
import type { UserActor } from '../../../kernel/actor.ts';
import type { Db } from '../../../kernel/database/database.ts';
import { implementInTransaction } from '../../../kernel/http/implement.ts';
import { AppError, found, invalid } from '../../../kernel/problems/app-error.ts';
import { record } from '../../../kernel/records/events.ts';
import { pageAnswer, pageWindow } from '../../../kernel/records/page.ts';
import { queueMail } from '../../../kernel/records/mail.ts';
import { heldRaters } from '../../booking-rules/index.ts';

export const holdParts = { rater: { select: { id: true, name: true } } } satisfies Prisma.RaterHoldInclude;
export type HoldRow = Prisma.RaterHoldGetPayload<{ include: typeof holdParts }>;

export async function presentHold(db: Db, row: HoldRow): Promise<RaterHold> {
  const { id, rater, reason, correctiveActionId, placedBy, liftedBy, liftReason, liftedAt } = row;
  const booked = liftedAt
    ? 0
    : await db.visit.count({
        where: { raterId: row.raterId, state: 'booked', startsAt: { gte: row.from } },
      });
  return {
    ...{ id, rater, reason, correctiveActionId, placedBy, liftedBy, liftReason, booked },
    from: row.from.toISOString(),
    placedAt: row.placedAt.toISOString(),
    liftedAt: liftedAt?.toISOString() ?? null,
  };
}

interface Wanted {
  raterId: string;
  from: Date;
  reason: string;
  correctiveActionId: string | null;
}

/** Holds a rater; his row is held meanwhile, so that no booking slips in beside it. */
export async function placeHold(
  db: Db,
  actor: UserActor,
  requestId: string,
  wanted: Wanted,
): Promise<HoldRow> {
  await db.$queryRaw`SELECT id FROM users WHERE id = ${wanted.raterId}::uuid FOR NO KEY UPDATE`;
  const rater = await db.user.findUnique({ where: { id: wanted.raterId } });
  if (rater?.role !== 'rater') throw invalid('raterId', 'Nobody with this id works as a rater.');
  const row = await db.raterHold.create({
    data: { ...wanted, placedById: actor.id, placedBy: actor.name },
    include: holdParts,
  });
  await record(db, actor, requestId, {
    action: 'rater held',
    recordType: 'hold',
    recordId: row.id,
    after: { rater: rater.name, from: wanted.from, correctiveActionId: wanted.correctiveActionId },
    reason: wanted.reason,
  });
  const { booked } = await presentHold(db, row);
  if (booked > 0) {
    const office = await db.user.findMany({
      where: { role: 'office', active: true },
      select: { email: true },
    });
    const visits = booked === 1 ? 'One visit is' : `${booked} visits are`;
    await queueMail(
      db,
      ...office.map(({ email }) => ({
        recipient: email,
        subject: `${rater.name} is held: ${booked} to be given to others`,
        body: `${visits} booked for ${rater.name} after the hold begins. Give them to other raters.\n`,
        about: 'hold',
      })),
    );
  }
  return row;
}

export function keepHolds(app: FastifyInstance): void {
  implementInTransaction(app, routes.correctiveActions.bookingHolds, async ({ db }) =>
    (await heldRaters(db)).map(({ raterId, from, reason }) => ({
      raterId,
      from: from.toISOString(),
      reason,
    })),
  );

  implementInTransaction(app, routes.correctiveActions.holds, async ({ db, query }) => {
    const where: Prisma.RaterHoldWhereInput = {
      ...(query.raterId ? { raterId: query.raterId } : {}),
      ...(query.inForce ? { liftedAt: null } : {}),
    };
    const rows = await db.raterHold.findMany({
      where,
      include: holdParts,
      orderBy: [{ liftedAt: { sort: 'desc', nulls: 'first' } }, { from: 'desc' }, { id: 'asc' }],
      ...pageWindow(query),
    });
    const items: RaterHold[] = [];
    for (const row of rows) items.push(await presentHold(db, row));
    return pageAnswer(items, await db.raterHold.count({ where }), query);
  });

  implementInTransaction(app, routes.correctiveActions.hold, async ({ db, actor, body, request }) => {
    const { correctiveActionId } = body;
    if (correctiveActionId) {
      const action = found(
        await db.correctiveAction.findUnique({ where: { id: correctiveActionId } }),
        'corrective action',
      );
      if (action.state === 'closed' || action.raterId !== body.raterId)
        throw new AppError('conflict', 'The corrective action is closed, or about somebody else.');
    }
    const wanted = { ...body, from: new Date(body.from) };
    return presentHold(db, await placeHold(db, actor, request.id, wanted));
  });

  implementInTransaction(app, routes.correctiveActions.lift, async ({ db, actor, params, body, request }) => {
    await db.$queryRaw`SELECT id FROM rater_holds WHERE id = ${params.id}::uuid FOR UPDATE`;
    const before = found(await db.raterHold.findUnique({ where: params }), 'hold');
    if (before.liftedAt) throw new AppError('conflict', 'The hold was lifted already.');
    const row = await db.raterHold.update({
      where: params,
      data: { liftedAt: new Date(), liftedBy: actor.name, liftReason: body.reason },
      include: holdParts,
    });
    await record(db, actor, request.id, {
      action: 'hold lifted',
      recordType: 'hold',
      recordId: row.id,
      after: { raterId: row.raterId, liftedBy: actor.name },
      reason: body.reason,
    });
    return presentHold(db, row);
  });
}
