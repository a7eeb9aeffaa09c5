import { randomBytes } from 'node:crypto';
import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import { batchRuleSets, failedHouses, testingOrder, type BatchEvent } from '@countercheck/sampling';
import type { Db } from '../../../kernel/database/database.ts';
import { implementInTransaction } from '../../../kernel/http/implement.ts';
import { AppError, found, invalid } from '../../../kernel/problems/app-error.ts';
import { record } from '../../../kernel/records/events.ts';
import { addBatchEvent } from './add-event.ts';
import { firstResults, isCorrected } from './house-result.ts';
import { findBatch, stateOf, type BatchRow } from './parts.ts';
import { presentBatch } from './present.ts';

async function likeHouses(db: Db, { builderId, communityId, planId }: BatchRow, ids: readonly string[]) {
  const like = { id: { in: [...ids] }, builderId, communityId, ...(planId ? { planId } : {}) };
  if ((await db.house.count({ where: like })) !== new Set(ids).size)
    throw new AppError(
      'batch-rule',
      'Only houses of the batch’s builder, community and plan can come into it.',
    );
}

/** What a house's own file says now: its first result, or that what had failed was corrected. */
async function resultOf(db: Db, row: BatchRow, houseId: string): Promise<BatchEvent> {
  if (failedHouses(stateOf(row).state).includes(houseId)) {
    if (!(await isCorrected(db, houseId)))
      throw new AppError(
        'batch-rule',
        'Items of this house are still open: they are corrected and measured again first.',
      );
    return { kind: 'retested', houseId, passed: true };
  }
  const result = (await firstResults(db, [houseId])).get(houseId);
  if (!result?.at) throw new AppError('batch-rule', 'Nothing was measured and submitted in this house yet.');
  if (result.readiness === 'not-tested')
    throw new AppError(
      'batch-rule',
      'Not everything in this house is decided: what still waits is measured first. What was not measured passes nothing.',
    );
  const inSet = row.events.some(({ houseIds }) => houseIds.includes(houseId));
  if (!inSet) await refuseChoosing(db, row, result.at);
  return { kind: 'tested', houseId, passed: result.readiness === 'passed' };
}

/** Entry is earned by what comes, one after the other: whoever could choose the houses could choose the passes. */
async function refuseChoosing(db: Db, row: BatchRow, at: Date): Promise<void> {
  const { builderId, communityId, planId, openedAt } = row;
  if (at < openedAt)
    throw new AppError(
      'batch-rule',
      'This house was measured before the batch was opened; entry is earned by houses measured since.',
    );
  const waiting = await db.house.findMany({
    where: {
      ...{ builderId, communityId, batchHouse: null },
      ...(planId ? { planId } : {}),
      // One that is not decided is no result that somebody could pass over.
      OR: [{ failedItems: { some: {} } }, { itemResults: { none: { status: 'waiting' } } }],
      visits: {
        some: { state: 'submitted', kind: { not: 'quality' }, submittedAt: { gte: openedAt, lt: at } },
        none: { state: 'submitted', kind: { not: 'quality' }, submittedAt: { lt: openedAt } },
      },
    },
    select: { address: true, lot: true },
    orderBy: { lot: 'asc' },
  });
  const [first] = waiting;
  if (first)
    throw new AppError(
      'batch-rule',
      `${first.address}, lot ${first.lot}, was measured before this one: results are taken in the order in which the houses were measured.`,
    );
}

export function keepBatches(app: FastifyInstance): void {
  implementInTransaction(app, routes.batches.open, async ({ db, actor, body, request }) => {
    const { title, communityId, planId, trades, rulesKey } = body;
    if (!batchRuleSets.some(({ key }) => key === rulesKey))
      throw invalid('rulesKey', 'There are no such rules');
    const { builderId } = found(await db.community.findUnique({ where: { id: communityId } }), 'community');
    if (planId && (await db.plan.count({ where: { id: planId, builderId } })) === 0)
      throw new AppError('not-found', 'There is no such plan.');
    const data = { title, builderId, communityId, planId, trades, rulesKey };
    const { id } = await db.batch.create({ data: { ...data, openedById: actor.id, openedBy: actor.name } });
    await record(db, actor, request.id, {
      action: 'batch opened',
      recordType: 'batch',
      recordId: id,
      after: data,
    });
    return presentBatch(db, await findBatch(db, id));
  });

  implementInTransaction(app, routes.batches.takeResult, async ({ db, actor, params, body, request }) => {
    const row = await findBatch(db, params.id);
    await likeHouses(db, row, [body.houseId]);
    const event = await resultOf(db, row, body.houseId);
    await addBatchEvent(db, actor, row, event);
    await record(db, actor, request.id, {
      action: 'batch result taken',
      recordType: 'batch',
      recordId: row.id,
      houseId: body.houseId,
      after: event,
    });
    return presentBatch(db, await findBatch(db, row.id));
  });

  implementInTransaction(app, routes.batches.openSet, async ({ db, actor, params, body, request }) => {
    const row = await findBatch(db, params.id);
    await likeHouses(db, row, body.houseIds);
    const results = await firstResults(db, body.houseIds);
    // Whoever knows a result before the choice could put together a set that passes.
    if ([...results.values()].some(({ at }) => at !== null))
      throw new AppError('batch-rule', 'A set holds houses that were not measured yet; one of these was.');
    const seed = randomBytes(32).toString('hex');
    const houseIds = testingOrder(body.houseIds, seed);
    await addBatchEvent(db, actor, row, { kind: 'set-opened', houseIds }, seed);
    await record(db, actor, request.id, {
      action: 'batch set opened',
      recordType: 'batch',
      recordId: row.id,
      after: { houseIds, seed },
    });
    return presentBatch(db, await findBatch(db, row.id));
  });
}
