import type { FastifyInstance } from 'fastify';
import { routes, type SignalFinding } from '@countercheck/contracts';
import type { Prisma } from '@countercheck/prisma';
import type { UserActor } from '../../kernel/actor.ts';
import type { Db } from '../../kernel/database/database.ts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { AppError, found, invalid } from '../../kernel/problems/app-error.ts';
import { record, type Action } from '../../kernel/records/events.ts';
import { pageAnswer, pageWindow } from '../../kernel/records/page.ts';
import { companyOptions, dayAt } from '../assessment/index.ts';
import { orderFileReviews, orderRetests } from '../quality/index.ts';
import { findingParts, presentFinding, presentFindingSummary, type FindingRow } from './present.ts';

async function newestRun(db: Db): Promise<string | null> {
  const row = await db.signalRun.findFirst({
    where: { run: { state: 'done' } },
    orderBy: { run: { endedAt: 'desc' } },
    select: { id: true },
  });
  return row?.id ?? null;
}

async function behind(db: Db, { houseIds, raterId }: FindingRow): Promise<SignalFinding['behind']> {
  const { timezone } = await companyOptions(db);
  const rows = await db.house.findMany({
    where: { id: { in: houseIds } },
    select: {
      ...{ id: true, address: true, lot: true, community: { select: { name: true } } },
      visits: {
        where: { raterId, startedAt: { not: null } },
        orderBy: { startsAt: 'asc' },
        take: 1,
        select: { startsAt: true },
      },
    },
  });
  const byId = new Map(rows.map((row) => [row.id, row]));
  return houseIds.flatMap((id) => {
    const row = byId.get(id);
    if (!row) return [];
    const { address, lot, community, visits } = row;
    return [
      {
        id,
        address,
        lot,
        community: community.name,
        testedOn: visits[0] ? dayAt(visits[0].startsAt, timezone) : null,
      },
    ];
  });
}

async function whole(db: Db, id: string): Promise<SignalFinding> {
  const row = found(await db.signalFinding.findUnique({ where: { id }, include: findingParts }), 'finding');
  const earlier = await db.signalFinding.findMany({
    where: { raterId: row.raterId, signal: row.signal, createdAt: { lt: row.createdAt } },
    orderBy: { createdAt: 'desc' },
    take: 10,
    select: { id: true, createdAt: true, state: true, reason: true },
  });
  return presentFinding(row, await behind(db, row), earlier);
}

/** Held, so that two people do not decide at once. */
async function open(db: Db, id: string): Promise<FindingRow> {
  await db.$queryRaw`SELECT id FROM signal_findings WHERE id = ${id}::uuid FOR UPDATE`;
  const row = found(await db.signalFinding.findUnique({ where: { id }, include: findingParts }), 'finding');
  if (row.state === 'dismissed')
    throw new AppError('conflict', `${row.decidedBy ?? 'Somebody'} has laid this finding aside already.`);
  return row;
}

async function decide(
  db: Db,
  actor: UserActor,
  requestId: string,
  { id, state }: FindingRow,
  next: { state: 'dismissed' | 'ordered'; reason: string; action: Action; after: object },
): Promise<void> {
  await db.signalFinding.update({
    where: { id },
    data: {
      ...{ state: next.state, reason: next.reason },
      decidedById: actor.id,
      decidedBy: actor.name,
      decidedAt: new Date(),
    },
  });
  await record(db, actor, requestId, {
    ...{ action: next.action, recordType: 'signal finding', recordId: id },
    ...{ before: { state }, after: { state: next.state, ...next.after }, reason: next.reason },
  });
}

export function followFindings(app: FastifyInstance): void {
  implementInTransaction(app, routes.signals.findings, async ({ db, query }) => {
    const runId = query.runId ?? (await newestRun(db));
    if (runId === null) return pageAnswer([], 0, query);
    const where: Prisma.SignalFindingWhereInput = {
      runId,
      ...(query.state ? { state: query.state } : {}),
      ...(query.raterId ? { raterId: query.raterId } : {}),
    };
    const rows = await db.signalFinding.findMany({
      ...{ where, include: findingParts, orderBy: [{ q: 'asc' }, { id: 'asc' }] },
      ...pageWindow(query),
    });
    return pageAnswer(rows.map(presentFindingSummary), await db.signalFinding.count({ where }), query);
  });

  implementInTransaction(app, routes.signals.finding, ({ db, params }) => whole(db, params.id));

  implementInTransaction(app, routes.signals.dismiss, async ({ db, actor, params, body, request }) => {
    const row = await open(db, params.id);
    if (row.state === 'ordered')
      throw new AppError('conflict', 'Reviews or re-tests were ordered from it; their outcome will tell.');
    const { reason } = body;
    const action = 'finding on readings dismissed';
    await decide(db, actor, request.id, row, { state: 'dismissed', reason, action, after: {} });
    return whole(db, row.id);
  });

  implementInTransaction(app, routes.signals.order, async ({ db, actor, params, body, request }) => {
    const row = await open(db, params.id);
    const { reviews, retests, dueOn, reason } = body;
    const strange = [...reviews, ...retests].filter((id) => !row.houseIds.includes(id));
    if (strange.length > 0) throw invalid('reviews', 'Choose among the houses behind the finding.');
    const orders = (houseIds: readonly string[]) =>
      [...new Set(houseIds)].map((houseId) => ({
        ...{ houseId, raterId: row.raterId, source: 'signal' as const, signalId: row.id, dueOn, reason },
      }));
    if (reviews.length > 0) await orderFileReviews(db, actor, request.id, orders(reviews));
    if (retests.length > 0) await orderRetests(db, actor, request.id, orders(retests));
    const action = 'finding on readings followed up';
    await decide(db, actor, request.id, row, {
      state: 'ordered',
      reason,
      action,
      after: { reviews, retests, dueOn },
    });
    return whole(db, row.id);
  });
}
