import type { Db } from '../../../kernel/database/database.ts';

export type Readiness = 'passed' | 'failed' | 'not-tested';

interface FirstResult {
  readiness: Readiness;
  /** when something was first submitted there */
  at: Date | null;
}

/**
 * What the houses' own files say about their first test: everything was decided and nothing failed, something failed,
 * or something still waits to be measured. A visit can be submitted with nothing measured, and that is no pass. No one
 * types a result into a batch.
 */
export async function firstResults(db: Db, houseIds: readonly string[]): Promise<Map<string, FirstResult>> {
  const rows = await db.house.findMany({
    where: { id: { in: [...houseIds] } },
    select: {
      id: true,
      visits: {
        where: { state: 'submitted', kind: { not: 'quality' } },
        select: { submittedAt: true, startsAt: true },
        orderBy: { submittedAt: 'asc' },
        take: 1,
      },
      failedItems: { select: { id: true }, take: 1 },
      itemResults: { where: { status: 'waiting' }, select: { id: true }, take: 1 },
    },
  });
  return new Map(
    rows.map(({ id, visits: [visit], failedItems, itemResults: waiting }) => [
      id,
      {
        readiness:
          failedItems.length > 0 ? 'failed' : visit && waiting.length === 0 ? 'passed' : 'not-tested',
        at: visit ? (visit.submittedAt ?? visit.startsAt) : null,
      },
    ]),
  );
}

/** Whether everything that failed in a house was measured again with success. */
export async function isCorrected(db: Db, houseId: string): Promise<boolean> {
  return (await db.failedItem.count({ where: { houseId, state: { not: 'closed' } } })) === 0;
}
