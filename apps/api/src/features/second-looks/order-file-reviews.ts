import { randomUUID } from 'node:crypto';
import type { Prisma } from '@countercheck/prisma';
import type { Actor } from '../../kernel/actor.ts';
import type { Db } from '../../kernel/database/database.ts';
import { AppError } from '../../kernel/problems/app-error.ts';
import { record, type EventEntry } from '../../kernel/records/events.ts';
import { firstRaters } from '../booking-rules/index.ts';
import type { Ordered, RetestOrder } from '../retests/index.ts';

/** A file is reviewed whole. */
export type FileReviewOrder = Omit<RetestOrder, 'scope'>;

/** A draw may be of very many files, and a statement takes only so many values. */
const ordersAtOnce = 1000;

/**
 * Orders reviews of files, in bulk. A house whose file is under review keeps that review, and the order is counted
 * to it when it had no draw yet. Refuses with `conflict` where nobody has submitted anything.
 */
export async function orderFileReviews(
  db: Db,
  actor: Actor,
  requestId: string | null,
  orders: readonly FileReviewOrder[],
): Promise<Ordered[]> {
  const ordered: Ordered[] = [];
  for (let from = 0; from < orders.length; from += ordersAtOnce)
    ordered.push(...(await orderSome(db, actor, requestId, orders.slice(from, from + ordersAtOnce))));
  return ordered;
}

async function orderSome(
  db: Db,
  actor: Actor,
  requestId: string | null,
  orders: readonly FileReviewOrder[],
): Promise<Ordered[]> {
  const houseIds = [...new Set(orders.map(({ houseId }) => houseId))];
  const raters = await firstRaters(db, houseIds);
  const houses = await db.house.findMany({
    where: { id: { in: houseIds } },
    select: { id: true, revision: true, address: true },
  });
  const revisions = new Map(houses.map((house) => [house.id, house.revision]));
  const standing = await db.fileReview.findMany({
    where: { houseId: { in: houseIds }, state: 'open' },
    select: { id: true, houseId: true, revision: true, drawId: true },
  });
  const byHouse = new Map(
    standing.filter((row) => row.revision === revisions.get(row.houseId)).map((row) => [row.houseId, row]),
  );
  const rows: Prisma.FileReviewCreateManyInput[] = [];
  const events: EventEntry[] = [];
  const ordered: Ordered[] = [];
  for (const order of orders) {
    const { houseId, source, drawId = null, signalId = null, correctiveActionId = null } = order;
    const already = byHouse.get(houseId);
    if (already) {
      if (drawId !== null && already.drawId === null)
        await db.fileReview.updateMany({ where: { id: already.id, drawId: null }, data: { drawId } });
      ordered.push({ houseId, id: already.id, created: false });
      continue;
    }
    const revision = revisions.get(houseId);
    if (revision === undefined) throw new AppError('not-found', 'There is no such house.');
    const raterId = order.raterId ?? raters.get(houseId);
    if (raterId === undefined || !raters.has(houseId))
      throw new AppError('conflict', 'Nothing was submitted in this house that could be reviewed.');
    const id = randomUUID();
    const reason = order.reason ?? null;
    rows.push({
      ...{ id, houseId, revision, raterId, source, drawId, signalId, correctiveActionId, reason },
      dueOn: new Date(order.dueOn),
      orderedById: actor.kind === 'user' ? actor.id : null,
      orderedBy: actor.kind === 'nobody' ? '' : actor.name,
    });
    events.push({
      action: 'file review ordered',
      recordType: 'file review',
      recordId: id,
      houseId,
      after: { raterId, revision, source, drawId, signalId, dueOn: order.dueOn },
      reason,
    });
    byHouse.set(houseId, { id, houseId, revision, drawId });
    ordered.push({ houseId, id, created: true });
  }
  if (rows.length > 0) await db.fileReview.createMany({ data: rows });
  if (events.length > 0) await record(db, actor, requestId, ...events);
  return ordered;
}
