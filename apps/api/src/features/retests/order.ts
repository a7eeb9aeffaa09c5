import type { Prisma, QualitySource } from '@countercheck/prisma';
import type { Actor } from '../../kernel/actor.ts';
import type { Db } from '../../kernel/database/database.ts';
import { AppError } from '../../kernel/problems/app-error.ts';
import { record } from '../../kernel/records/events.ts';
import { firstRaters } from '../booking-rules/index.ts';
import { openVisitRequest } from '../visits/index.ts';

export interface RetestOrder {
  houseId: string;
  /** whose work is measured again; the house's first rater unless told */
  raterId?: string;
  source: QualitySource;
  drawId?: string | null;
  signalId?: string | null;
  correctiveActionId?: string | null;
  reason?: string | null;
  /** what is to be measured again; everything that was measured and counts unless told */
  scope?: { test: string; subjectId: string }[] | null;
  /** the calendar date by which it is to be done, YYYY-MM-DD */
  dueOn: string;
}

export interface Ordered {
  houseId: string;
  id: string;
  /** false when one was on order for this house already; that one stands for it */
  created: boolean;
}

/**
 * Orders second measurements. A house that has one on order keeps it, and the order is counted to it when it had
 * no draw yet. Refuses with `conflict` where nothing was submitted that could be measured again.
 */
export async function orderRetests(
  db: Db,
  actor: Actor,
  requestId: string | null,
  orders: readonly RetestOrder[],
): Promise<Ordered[]> {
  const houseIds = orders.map(({ houseId }) => houseId);
  // Two who order for one house at the same moment come one after the other; the second finds the order standing.
  await db.$queryRaw`SELECT id FROM houses WHERE id = ANY(${houseIds}::uuid[]) ORDER BY id FOR UPDATE`;
  const raters = await firstRaters(db, houseIds);
  const standing = await db.retest.findMany({
    where: { houseId: { in: houseIds }, state: { in: ['ordered', 'booked'] } },
    orderBy: { id: 'asc' },
  });
  const byHouse = new Map(standing.map((row) => [row.houseId, row]));
  const ordered: Ordered[] = [];
  for (const order of orders) {
    const { houseId, source, drawId = null, signalId = null, correctiveActionId = null } = order;
    const already = byHouse.get(houseId);
    if (already) {
      if (drawId !== null && already.drawId === null)
        await db.retest.update({ where: { id: already.id }, data: { drawId } });
      ordered.push({ houseId, id: already.id, created: false });
      continue;
    }
    const raterId = order.raterId ?? raters.get(houseId);
    if (raterId === undefined || !raters.has(houseId))
      throw new AppError('conflict', 'Nothing was submitted in this house that could be measured again.');
    const row = await db.retest.create({
      data: {
        ...{ houseId, raterId, source, drawId, signalId, correctiveActionId },
        ...{ reason: order.reason ?? null, dueOn: new Date(order.dueOn) },
        ...(order.scope ? { scope: order.scope as unknown as Prisma.InputJsonArray } : {}),
        orderedById: actor.kind === 'user' ? actor.id : null,
        orderedBy: actor.kind === 'nobody' ? '' : actor.name,
      },
    });
    byHouse.set(houseId, row);
    await record(db, actor, requestId, {
      action: 're-test ordered',
      recordType: 're-test',
      recordId: row.id,
      houseId,
      after: { raterId, source, drawId, signalId, dueOn: order.dueOn, scope: order.scope ?? null },
      reason: order.reason ?? null,
    });
    await openVisitRequest(db, actor, requestId, {
      ...{ houseId, kind: 'quality', source: 'retest', deadlineOn: order.dueOn },
      ...{ avoidRaterId: raterId, retestId: row.id },
    });
    ordered.push({ houseId, id: row.id, created: true });
  }
  return ordered;
}
