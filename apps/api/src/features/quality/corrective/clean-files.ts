import { cleanInARow } from '@countercheck/quality';
import type { CorrectiveAction } from '@countercheck/prisma';
import { system } from '../../../kernel/actor.ts';
import type { Db } from '../../../kernel/database/database.ts';
import { record } from '../../../kernel/records/events.ts';

type About = Pick<CorrectiveAction, 'raterId' | 'builderId' | 'openedAt'>;

/** File reviews of the one the action is about, finished since it began, newest first. */
export function reviewsSince(db: Db, { raterId, builderId, openedAt }: About) {
  return db.fileReview.findMany({
    where: {
      outcome: { not: null },
      doneAt: { gte: openedAt },
      ...(raterId ? { raterId } : { house: { builderId: builderId! } }),
    },
    select: { id: true, outcome: true, doneAt: true, house: { select: { address: true } } },
    orderBy: [{ doneAt: 'desc' }, { id: 'asc' }],
  });
}

export async function cleanFilesOf(db: Db, action: About): Promise<number> {
  const reviews = await reviewsSince(db, action);
  return cleanInARow(
    reviews.map(({ outcome, doneAt }) => ({ outcome: outcome!, doneAt: doneAt! })),
    action.openedAt,
  );
}

/**
 * After a review was finished or its outcome changed: an action whose clean files are reached is marked so, its raised
 * shares end and its holds are lifted. The action itself stays open until it was found effective.
 */
export async function countCleanFiles(
  db: Db,
  requestId: string,
  review: { raterId: string; house: { builder: { id: string } } },
): Promise<void> {
  const actions = await db.correctiveAction.findMany({
    where: {
      state: 'open',
      restoredAt: null,
      OR: [{ raterId: review.raterId }, { builderId: review.house.builder.id }],
    },
    orderBy: { id: 'asc' },
  });
  for (const action of actions) {
    const clean = await cleanFilesOf(db, action);
    if (clean < action.cleanFilesNeeded) continue;
    await db.correctiveAction.update({ where: { id: action.id }, data: { restoredAt: new Date() } });
    await record(db, system, requestId, {
      action: 'clean files reached',
      recordType: 'corrective action',
      recordId: action.id,
      after: { cleanFiles: clean, needed: action.cleanFilesNeeded },
    });
    const reason = `${clean} clean ${clean === 1 ? 'file' : 'files'} in a row`;
    await liftHoldsOf(db, requestId, action.id, reason);
  }
}

/** Lifts what holds a rater on account of an action. */
export async function liftHoldsOf(
  db: Db,
  requestId: string,
  correctiveActionId: string,
  reason: string,
  by = system,
): Promise<void> {
  const holds = await db.raterHold.findMany({ where: { correctiveActionId, liftedAt: null } });
  for (const { id, raterId } of holds) {
    const liftedBy = by.kind === 'nobody' ? '' : by.name;
    await db.raterHold.update({
      where: { id },
      data: { liftedAt: new Date(), liftedBy, liftReason: reason },
    });
    await record(db, by, requestId, {
      action: 'hold lifted',
      recordType: 'hold',
      recordId: id,
      after: { raterId, liftedBy },
      reason,
    });
  }
}
