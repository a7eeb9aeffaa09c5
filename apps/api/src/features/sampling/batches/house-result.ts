import type { Db } from '../../../kernel/database/database.ts';

export type Readiness = 'passed' | 'failed' | 'not-tested';

/**
 * What the houses' own files say about their first test: nothing failed, something did, or nothing was submitted. No one
 * types a result into a batch.
 */
export async function firstResults(db: Db, houseIds: readonly string[]): Promise<Map<string, Readiness>> {
  const rows = await db.house.findMany({
    where: { id: { in: [...houseIds] } },
    select: {
      id: true,
      visits: { where: { state: 'submitted', kind: { not: 'quality' } }, select: { id: true }, take: 1 },
      failedItems: { select: { id: true }, take: 1 },
    },
  });
  return new Map(
    rows.map(({ id, visits, failedItems }) => [
      id,
      failedItems.length > 0 ? 'failed' : visits.length > 0 ? 'passed' : 'not-tested',
    ]),
  );
}

/** Whether everything that failed in a house was measured again with success. */
export async function isCorrected(db: Db, houseId: string): Promise<boolean> {
  return (await db.failedItem.count({ where: { houseId, state: { not: 'closed' } } })) === 0;
}
