import type { CorrectiveAction, CorrectiveSummary } from '@countercheck/contracts';
import { cleanInARow } from '@countercheck/quality';
import type { Prisma } from '@countercheck/prisma';
import type { Db } from '../../../kernel/database/database.ts';
import { found } from '../../../kernel/problems/app-error.ts';
import { isoDate } from '../../assessment/index.ts';
import { today } from '../file-reviews/held-review.ts';
import { cleanFilesOf, reviewsSince } from './clean-files.ts';
import { safeName } from './evidence-file.ts';
import { holdParts, presentHold } from './holds.ts';

const named = { select: { id: true, name: true } };
export const actionParts = {
  rater: named,
  builder: named,
  holds: { include: holdParts, orderBy: { placedAt: 'desc' } },
} satisfies Prisma.CorrectiveActionInclude;
export type ActionRow = Prisma.CorrectiveActionGetPayload<{ include: typeof actionParts }>;

export async function presentSummary(db: Db, row: ActionRow, day: string): Promise<CorrectiveSummary> {
  const { id, subject, cause, state, openedBy, raisedFileShare, raisedFieldShare, effective } = row;
  const dueOn = isoDate(row.effectivenessDueOn);
  return {
    ...{ id, subject, cause, state, openedBy, raisedFileShare, raisedFieldShare, effective },
    about: (row.rater ?? row.builder)!,
    openedAt: row.openedAt.toISOString(),
    cleanFilesNeeded: row.cleanFilesNeeded,
    cleanFiles: await cleanFilesOf(db, row),
    restoredAt: row.restoredAt?.toISOString() ?? null,
    effectivenessDueOn: dueOn,
    effectivenessOverdue: state === 'open' && effective !== true && dueOn < day,
    held: row.holds.some(({ liftedAt }) => liftedAt === null),
  };
}

/** More than these nobody reads on one page; the lists of reviews and re-tests have them all. */
const mostOrders = 200;

/** What was ordered on account of an action, what is due first in front. */
async function ordersOf(db: Db, correctiveActionId: string): Promise<CorrectiveAction['orders']> {
  const of = {
    ...{ where: { correctiveActionId }, include: { house: { select: { address: true } } } },
    ...{ orderBy: [{ dueOn: 'asc' as const }, { id: 'asc' as const }], take: mostOrders },
  };
  const row = (each: { id: string; house: { address: string }; dueOn: Date }) => ({
    ...{ id: each.id, address: each.house.address, dueOn: isoDate(each.dueOn) },
  });
  const reviews = await db.fileReview.findMany(of);
  const retests = await db.retest.findMany(of);
  return [
    ...retests.map((each) => ({
      ...{ kind: 'field-retest' as const, ...row(each), state: each.state, outcome: each.outcome },
    })),
    ...reviews.map((each) => ({
      ...{ kind: 'file-review' as const, ...row(each), state: each.state, outcome: each.outcome },
    })),
  ];
}

export async function showAction(db: Db, id: string): Promise<CorrectiveAction> {
  const row = found(
    await db.correctiveAction.findUnique({
      where: { id },
      include: {
        ...actionParts,
        evidence: {
          include: { file: { select: { mediaType: true, size: true, sha256: true } } },
          orderBy: [{ addedAt: 'asc' }, { id: 'asc' }],
        },
      },
    }),
    'corrective action',
  );
  const reviews = (await reviewsSince(db, row)).map((each) => ({
    ...{ id: each.id, address: each.house.address },
    ...{ outcome: each.outcome!, doneAt: each.doneAt! },
  }));
  const holds: CorrectiveAction['holds'] = [];
  for (const hold of row.holds) holds.push(await presentHold(db, hold));
  return {
    ...(await presentSummary(db, row, await today(db))),
    cleanFiles: cleanInARow(reviews, row.openedAt),
    action: row.action,
    effectivenessNote: row.effectivenessNote,
    effectivenessBy: row.effectivenessBy,
    effectivenessAt: row.effectivenessAt?.toISOString() ?? null,
    closedAt: row.closedAt?.toISOString() ?? null,
    closedBy: row.closedBy,
    closeReason: row.closeReason,
    evidence: row.evidence.map(({ id: evidenceId, text, file, fileName, addedBy, addedAt }) => ({
      ...{ id: evidenceId, text, addedBy },
      file: file && { ...file, name: safeName(fileName ?? '', file.mediaType) },
      addedAt: addedAt.toISOString(),
    })),
    holds,
    orders: await ordersOf(db, id),
    reviews: reviews.map((each) => ({ ...each, doneAt: each.doneAt.toISOString() })),
  };
}
