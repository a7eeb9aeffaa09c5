import type { FailedItem } from '@countercheck/contracts';
import type { Prisma } from '@countercheck/prisma';
import type { ItemVerdict } from '@countercheck/rules';
import { verdictIn } from '@countercheck/rules/in-units';
import type { Db } from '../../kernel/database/database.ts';
import { presentPhoto, withFile } from '../photos/index.ts';

export const failedItemParts = {
  house: {
    select: {
      id: true,
      address: true,
      lot: true,
      community: { select: { name: true } },
      builder: { select: { id: true, name: true } },
    },
  },
  entries: { orderBy: [{ at: 'asc' as const }, { id: 'asc' as const }] },
  attachments: { include: withFile, orderBy: [{ addedAt: 'asc' as const }, { id: 'asc' as const }] },
} satisfies Prisma.FailedItemInclude;
type FailedItemRow = Prisma.FailedItemGetPayload<{ include: typeof failedItemParts }>;

const keyOf = (row: { houseId: string; item: string; subjectId: string }) =>
  `${row.houseId}/${row.item}/${row.subjectId}`;

/**
 * Failed items as people read them. Their words stay as they were kept; those in SI units come from the verdict with
 * the same words, as long as it stands.
 */
export async function presentFailedItems(db: Db, rows: readonly FailedItemRow[]): Promise<FailedItem[]> {
  const verdicts = await db.itemResult.findMany({
    where: { OR: rows.map(({ houseId, item, subjectId }) => ({ houseId, item, subjectId })) },
    select: { houseId: true, item: true, subjectId: true, reason: true, verdict: true },
  });
  const known = new Map(verdicts.map((each) => [keyOf(each), each]));
  return rows.map((row) => {
    const kept = known.get(keyOf(row));
    const verdict = kept?.reason === row.reason ? (kept.verdict as unknown as ItemVerdict) : null;
    const said = verdict && verdictIn(verdict, 'si');
    const needed = row.needed && (said?.headline?.needed ?? row.needed);
    return { ...presentFailedItem(row), inSi: said && { reason: said.reason, needed } };
  });
}

/** A failed item with the words that were kept: what a seal holds. */
export function presentFailedItem(row: FailedItemRow): FailedItem {
  const { id, item, title, subjectLabel, trade, state, reason, needed, correction, timesFailed } = row;
  const { community, ...house } = row.house;
  return {
    ...{ id, item, title, subjectLabel, trade, state, reason, needed, correction, timesFailed },
    cautions: row.cautions as string[],
    openedAt: row.openedAt.toISOString(),
    closedAt: row.closedAt?.toISOString() ?? null,
    house: { ...house, community: community.name },
    entries: row.entries.map((entry) => ({
      id: entry.id,
      kind: entry.kind,
      text: entry.text,
      byName: entry.byName,
      at: entry.at.toISOString(),
    })),
    photos: row.attachments.map(presentPhoto),
  };
}
