import type { ItemVerdict } from '@countercheck/rules';
import type { FailedItem, FailedItemEntryKind } from '@countercheck/prisma';
import type { UserActor } from '../../kernel/actor.ts';
import type { Db } from '../../kernel/database/database.ts';
import { record, type Action } from '../../kernel/records/events.ts';

export interface Settling {
  houseId: string;
  visitId: string;
  /** every verdict of the house, now */
  verdicts: readonly ItemVerdict[];
  /** whether the visit was about this verdict */
  inScope(verdict: ItemVerdict): boolean;
  /** whether a reading of the visit entered this verdict */
  readAgain(verdict: ItemVerdict): boolean;
}

interface Deed {
  entry: FailedItemEntryKind;
  action: Action | null;
  text: string;
  data: Partial<FailedItem>;
}

const passing = (verdict: ItemVerdict) => verdict.status !== 'fail' && verdict.status !== 'waiting';

const whatFailed = (verdict: ItemVerdict) => ({
  title: verdict.title,
  subjectLabel: verdict.subjectLabel,
  trade: verdict.trade,
  reason: verdict.reason,
  needed: verdict.headline?.needed ?? null,
  correction: verdict.correction,
  cautions: verdict.cautions,
});

function closing(text: string): Deed {
  return { entry: 'closed', action: 'item closed', text, data: { state: 'closed', closedAt: new Date() } };
}

/** What a visit does to an item that failed before; null when it says nothing about it. */
function deedFor(row: FailedItem, verdict: ItemVerdict | undefined, settling: Settling): Deed | null {
  const open = row.state !== 'closed';
  if (!verdict) return open ? closing('The house has no such item any more.') : null;
  if (passing(verdict)) return open ? closing(verdict.reason) : null;
  const fails = verdict.status === 'fail';
  if (fails && (!open || (settling.inScope(verdict) && settling.readAgain(verdict))))
    return {
      entry: 'reopened',
      action: 'item reopened',
      text: verdict.reason,
      data: { ...whatFailed(verdict), state: 'open', closedAt: null, timesFailed: row.timesFailed + 1 },
    };
  if (row.state === 'reinspection_asked' && settling.inScope(verdict))
    return {
      entry: 'note',
      action: null,
      text: 'This was not read again at the reinspection.',
      data: { state: 'corrected' },
    };
  return null;
}

/** The photos a rater took of what failed become the builder's to see. */
async function showPhotos(db: Db, settling: Settling, verdict: ItemVerdict, failedItemId: string) {
  const { item, subjectId, subjectKind } = verdict;
  await db.attachment.updateMany({
    where: {
      visitId: settling.visitId,
      failedItemId: null,
      item,
      ...(subjectKind === 'house' ? {} : { OR: [{ subjectId }, { subjectId: null }] }),
    },
    data: { failedItemId },
  });
}

/**
 * After a visit: what fails is opened, or opened again, for the builder; what passes is closed. Gives back
 * what failed on this visit.
 */
export async function settleFailedItems(
  db: Db,
  actor: UserActor,
  requestId: string,
  settling: Settling,
): Promise<ItemVerdict[]> {
  const { houseId, visitId, verdicts } = settling;
  const by = { byName: actor.name, byUserId: actor.id, visitId };
  const rows = await db.failedItem.findMany({ where: { houseId } });
  const rowOf = (verdict: ItemVerdict) =>
    rows.find((row) => row.item === verdict.item && row.subjectId === verdict.subjectId);
  const tell = (action: Action, recordId: string, text: string) =>
    record(db, actor, requestId, {
      ...{ action, recordId, houseId, reason: text },
      recordType: 'failed item',
    });
  const failed: ItemVerdict[] = [];

  for (const row of rows) {
    const verdict = verdicts.find((each) => rowOf(each) === row);
    const deed = deedFor(row, verdict, settling);
    if (!deed) continue;
    const { cautions, ...data } = deed.data;
    await db.failedItem.update({
      where: { id: row.id },
      data: { ...data, ...(cautions ? { cautions: cautions as string[] } : {}) },
    });
    await db.failedItemEntry.create({
      data: { failedItemId: row.id, kind: deed.entry, text: deed.text, ...by },
    });
    if (deed.action) await tell(deed.action, row.id, deed.text);
    if (verdict?.status !== 'fail') continue;
    await showPhotos(db, settling, verdict, row.id);
    if (deed.entry === 'reopened') failed.push(verdict);
  }

  for (const verdict of verdicts) {
    if (verdict.status !== 'fail' || rowOf(verdict)) continue;
    const row = await db.failedItem.create({
      data: {
        ...{ houseId, item: verdict.item, subjectId: verdict.subjectId, openedById: actor.id },
        ...whatFailed(verdict),
        entries: { create: { kind: 'opened', text: verdict.reason, ...by } },
      },
    });
    await tell('item failed', row.id, verdict.reason);
    await showPhotos(db, settling, verdict, row.id);
    failed.push(verdict);
  }
  return failed;
}
