import type { FailedItem } from '@countercheck/contracts';
import type { Prisma } from '@countercheck/prisma';
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
