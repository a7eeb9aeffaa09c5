import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import type { CorrectiveAction, Prisma } from '@countercheck/prisma';
import type { Db } from '../../../kernel/database/database.ts';
import { implementInTransaction } from '../../../kernel/http/implement.ts';
import { AppError, found, invalid } from '../../../kernel/problems/app-error.ts';
import { record } from '../../../kernel/records/events.ts';
import { given } from '../../../kernel/records/given.ts';
import { pageAnswer, pageWindow } from '../../../kernel/records/page.ts';
import { orderRaised } from '../../second-looks/index.ts';
import { today } from '../file-reviews/held-review.ts';
import { liftHoldsOf } from './clean-files.ts';
import { placeHold } from './holds.ts';
import { actionParts, presentSummary, showAction } from './present.ts';

/** An action, kept from being changed by anybody else until this transaction ends. */
export async function heldAction(db: Db, id: string): Promise<CorrectiveAction> {
  await db.$queryRaw`SELECT id FROM corrective_actions WHERE id = ${id}::uuid FOR UPDATE`;
  const row = found(await db.correctiveAction.findUnique({ where: { id } }), 'corrective action');
  if (row.state === 'closed') throw new AppError('conflict', 'The corrective action is closed.');
  return row;
}

async function refuseUnknown(
  db: Db,
  body: { subject: string; raterId: string | null; builderId: string | null },
) {
  if (body.subject === 'rater') {
    const rater = await db.user.findUnique({ where: { id: body.raterId! }, select: { role: true } });
    if (rater?.role !== 'rater') throw invalid('raterId', 'Nobody with this id works as a rater.');
  } else if ((await db.builder.count({ where: { id: body.builderId! } })) === 0)
    throw invalid('builderId', 'There is no such builder.');
}

export function keepActions(app: FastifyInstance): void {
  const contract = routes.correctiveActions;
  implementInTransaction(app, contract.list, async ({ db, query }) => {
    const day = await today(db);
    const where: Prisma.CorrectiveActionWhereInput = {
      ...(query.state ? { state: query.state } : {}),
      ...(query.raterId ? { raterId: query.raterId } : {}),
    };
    const rows = await db.correctiveAction.findMany({
      where,
      include: actionParts,
      orderBy: [{ state: 'asc' }, { effectivenessDueOn: 'asc' }, { id: 'asc' }],
      ...pageWindow(query),
    });
    const items = [];
    for (const row of rows) items.push(await presentSummary(db, row, day));
    return pageAnswer(items, await db.correctiveAction.count({ where }), query);
  });

  implementInTransaction(app, contract.show, ({ db, params }) => showAction(db, params.id));

  implementInTransaction(app, contract.open, async ({ db, actor, body, request }) => {
    await refuseUnknown(db, body);
    const { holdFrom, effectivenessDueOn, ...plain } = body;
    const about =
      body.subject === 'rater'
        ? { raterId: body.raterId, builderId: null }
        : { builderId: body.builderId, raterId: null };
    const row = await db.correctiveAction.create({
      data: {
        ...{ ...plain, ...about, openedById: actor.id, openedBy: actor.name },
        effectivenessDueOn: new Date(effectivenessDueOn),
      },
    });
    await record(db, actor, request.id, {
      action: 'corrective action opened',
      recordType: 'corrective action',
      recordId: row.id,
      after: { ...plain, ...about, effectivenessDueOn },
      reason: body.cause,
    });
    if (holdFrom !== null)
      await placeHold(db, actor, request.id, {
        ...{ raterId: body.raterId!, from: new Date(holdFrom), reason: body.cause },
        correctiveActionId: row.id,
      });
    await orderRaised(db, actor, request.id, row);
    return showAction(db, row.id);
  });

  implementInTransaction(app, contract.change, async ({ db, actor, params, body, request }) => {
    const before = await heldAction(db, params.id);
    const { effectivenessDueOn, ...plain } = body;
    const row = await db.correctiveAction.update({
      where: params,
      data: {
        ...given(plain),
        ...(effectivenessDueOn ? { effectivenessDueOn: new Date(effectivenessDueOn) } : {}),
      },
    });
    await record(db, actor, request.id, {
      action: 'corrective action changed',
      recordType: 'corrective action',
      recordId: before.id,
      before: Object.fromEntries(Object.keys(body).map((key) => [key, before[key as keyof typeof before]])),
      after: body,
    });
    if (row.raisedFileShare !== before.raisedFileShare || row.raisedFieldShare !== before.raisedFieldShare)
      await orderRaised(db, actor, request.id, row);
    return showAction(db, before.id);
  });

  implementInTransaction(app, contract.checkEffectiveness, async ({ db, actor, params, body, request }) => {
    const before = await heldAction(db, params.id);
    await db.correctiveAction.update({
      where: params,
      data: {
        ...{ effective: body.effective, effectivenessNote: body.note },
        ...{ effectivenessBy: actor.name, effectivenessAt: new Date() },
        ...(body.nextCheckOn ? { effectivenessDueOn: new Date(body.nextCheckOn) } : {}),
      },
    });
    await record(db, actor, request.id, {
      action: 'effectiveness checked',
      recordType: 'corrective action',
      recordId: before.id,
      before: { effective: before.effective },
      after: { effective: body.effective, nextCheckOn: body.nextCheckOn },
      reason: body.note,
    });
    return showAction(db, before.id);
  });

  implementInTransaction(app, contract.close, async ({ db, actor, params, body, request }) => {
    const before = await heldAction(db, params.id);
    if (before.effective !== true)
      throw new AppError(
        'conflict',
        'Check first whether it has helped; an action closes when it was effective.',
      );
    await db.correctiveAction.update({
      where: params,
      data: { state: 'closed', closedAt: new Date(), closedBy: actor.name, closeReason: body.reason },
    });
    await record(db, actor, request.id, {
      action: 'corrective action closed',
      recordType: 'corrective action',
      recordId: before.id,
      before: { state: before.state },
      after: { state: 'closed' },
      reason: body.reason,
    });
    await liftHoldsOf(db, request.id, before.id, body.reason, actor);
    return showAction(db, before.id);
  });
}
