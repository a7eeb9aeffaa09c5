import { owed, shareInForce } from '@countercheck/sampling';
import type { CorrectiveAction } from '@countercheck/prisma';
import { system, type Actor } from '../../kernel/actor.ts';
import type { Db } from '../../kernel/database/database.ts';
import { companyOptions, dayAt, isoDate } from '../assessment/index.ts';
import { filesOf, sharesInForce } from '../population/index.ts';
import { orderRetests } from '../retests/index.ts';
import { orderFileReviews } from './order-file-reviews.ts';

/**
 * Orders what the raised shares of an open action need: of the files of this year so many that, with those that were
 * looked at again already or are to be, the share is met; the newest first. Asked again it orders nothing more until
 * the share or the files have become more. That the newest come first is common practice, no published source.
 */
export async function orderRaised(
  db: Db,
  actor: Actor,
  requestId: string | null,
  action: CorrectiveAction,
): Promise<void> {
  if (action.state !== 'open' || action.restoredAt !== null) return;
  const { timezone } = await companyOptions(db);
  const today = dayAt(new Date(), timezone);
  const year = today.slice(0, 4);
  const effectiveOn = isoDate(action.effectivenessDueOn);
  const shares = await sharesInForce(db);
  const kinds = [
    { purpose: 'file-review' as const, raised: action.raisedFileShare, order: orderFileReviews },
    { purpose: 'field-retest' as const, raised: action.raisedFieldShare, order: orderRetests },
  ];
  for (const { purpose, raised, order } of kinds) {
    if (raised === null) continue;
    const answering = (leaveOutDone: boolean) => {
      const { raterId, builderId } = action;
      const period = { from: `${year}-01-01`, to: `${year}-12-31`, state: 'both' as const, kind: null };
      return filesOf(db, { ...period, raterId, builderId, leaveOutDone }, purpose, timezone);
    };
    const [files, left] = [(await answering(false)).length, await answering(true)];
    const { share, minimum } = shares[purpose];
    const due = owed(files, shareInForce(share, [Math.round(raised * 10_000)]), minimum);
    const missing = Math.max(0, due - (files - left.length));
    const newest = left.sort((a, b) => b.date.localeCompare(a.date) || a.id.localeCompare(b.id));
    const orders = newest.slice(0, missing).map(({ id, rater }) => ({
      ...{ houseId: id, raterId: rater, source: 'corrective' as const, correctiveActionId: action.id },
      ...{ reason: `Corrective action: ${action.cause}`, dueOn: effectiveOn < today ? today : effectiveOn },
    }));
    if (orders.length > 0) await order(db, actor, requestId, orders);
  }
}

/**
 * A house has become a file, or one of another year or revision: open actions about those who measured in it or about
 * its builder order what their raised shares need now. It is the service that orders, in the transaction of what made
 * the file. The actions are held meanwhile, so that two files that come in at once are not counted apart.
 */
export async function orderForNewFile(db: Db, requestId: string | null, houseId: string): Promise<void> {
  const { builderId, visits } = await db.house.findUniqueOrThrow({
    where: { id: houseId },
    select: {
      builderId: true,
      visits: { where: { state: 'submitted', kind: { not: 'quality' } }, select: { raterId: true } },
    },
  });
  const about = { OR: [{ builderId }, { raterId: { in: visits.map(({ raterId }) => raterId) } }] };
  const raised = { OR: [{ raisedFileShare: { not: null } }, { raisedFieldShare: { not: null } }] };
  const asked = await db.correctiveAction.findMany({
    where: { state: 'open', restoredAt: null, AND: [about, raised] },
    orderBy: { id: 'asc' },
    select: { id: true },
  });
  for (const { id } of asked) {
    await db.$queryRaw`SELECT id FROM corrective_actions WHERE id = ${id}::uuid FOR NO KEY UPDATE`;
    await orderRaised(db, system, requestId, await db.correctiveAction.findUniqueOrThrow({ where: { id } }));
  }
}
