import type { FigureOpening } from '@countercheck/contracts';
import type { FigureOpening as OpeningRow } from '@countercheck/prisma';
import type { Db } from '../../kernel/database/database.ts';
import { compiledRuleSet } from '../assessment/index.ts';

/** The opening that figures stand under now: nothing was read since. */
export const openingOf = (db: Db, houseId: string) =>
  db.figureOpening.findFirst({ where: { houseId, closedAt: null } });

export function presentOpening({ id, reason, openedBy, openedAt, closedAt }: OpeningRow): FigureOpening {
  const at = { openedAt: openedAt.toISOString(), closedAt: closedAt?.toISOString() ?? null };
  return { id, reason, openedBy, ...at };
}

/**
 * The corrected items of a house that are judged by what its installer reported. Only for these a new figure can
 * matter: what does not look at the figures is settled by measuring again.
 */
export async function correctedByFigures(db: Db, house: { id: string; ruleSetId: string }) {
  const corrected = await db.failedItem.findMany({
    where: { houseId: house.id, state: { in: ['corrected', 'reinspection_asked'] } },
    select: { item: true, title: true, subjectLabel: true },
  });
  if (corrected.length === 0) return [];
  const { set } = await compiledRuleSet(db, house.ruleSetId);
  const resting = set.items.filter((item) => JSON.stringify(item).includes('"reported.'));
  return corrected.filter(({ item }) => resting.some((each) => each.item === item));
}
