import type { FailedItemEntryKind, FailedItemState, VisitKind } from '@countercheck/prisma';
import type { UserActor } from '../../kernel/actor.ts';
import type { Db } from '../../kernel/database/database.ts';

/** Whether anybody has answered, since then, to what a visit found. */
export async function answeredSince(db: Db, houseId: string, since: Date): Promise<boolean> {
  const count = await db.failedItemEntry.count({
    where: { failedItem: { houseId }, at: { gt: since }, kind: { in: ['corrected', 'reinspection_asked'] } },
  });
  return count > 0;
}

/** The state in which the visit, once submitted again, finds the item as it did the first time. */
function stateBefore(deed: FailedItemEntryKind, visit: VisitKind): FailedItemState {
  if (deed !== 'opened' && visit === 'reinspection') return 'reinspection_asked';
  return deed === 'closed' ? 'open' : 'closed';
}

/**
 * Takes back what submitting a visit did to the failed items: what it opened is closed, what it closed or
 * opened again stands as before. The history keeps both.
 */
export async function undoSettlement(
  db: Db,
  actor: UserActor,
  visit: { id: string; houseId: string; kind: VisitKind },
  reason: string,
): Promise<void> {
  const entries = await db.failedItemEntry.findMany({
    where: { visitId: visit.id },
    include: { failedItem: true },
    orderBy: [{ at: 'asc' }, { id: 'asc' }],
  });
  const newest = new Map(entries.map((entry) => [entry.failedItemId, entry]));
  for (const { kind, failedItem: row } of newest.values()) {
    if (kind !== 'opened' && kind !== 'reopened' && kind !== 'closed') continue;
    const state = stateBefore(kind, visit.kind);
    await db.failedItem.update({
      where: { id: row.id },
      data: {
        state,
        closedAt: state === 'closed' ? new Date() : null,
        timesFailed: kind === 'closed' ? row.timesFailed : row.timesFailed - 1,
      },
    });
    await db.failedItemEntry.create({
      data: {
        failedItemId: row.id,
        kind: 'note',
        text: `The visit was opened again: ${reason}`,
        byName: actor.name,
        byUserId: actor.id,
        visitId: visit.id,
      },
    });
  }
}
