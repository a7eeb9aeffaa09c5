import type { Draw } from '@countercheck/contracts';
import type { Db } from '../../../kernel/database/database.ts';

/** The review or re-test that stands for a drawn file. */
export interface Work {
  id: string;
  state: string;
  outcome: string | null;
  /** done, and what it says about the file: 1 = a finding or a difference */
  value: number | null;
}

/** What came of files, by house: the newest review or re-test that was not withdrawn. */
export async function workOn(
  db: Db,
  purpose: Draw['purpose'],
  houseIds: readonly string[],
): Promise<Map<string, Work>> {
  const of = {
    where: { houseId: { in: [...houseIds] }, state: { not: 'withdrawn' as const } },
    orderBy: { orderedAt: 'asc' as const },
  };
  const bad = purpose === 'file-review' ? 'findings' : 'differs';
  const rows = purpose === 'file-review' ? await db.fileReview.findMany(of) : await db.retest.findMany(of);
  return new Map(
    rows.map(({ id, houseId, state, outcome, doneAt }) => {
      const value = doneAt === null || outcome === null ? null : outcome === bad ? 1 : 0;
      return [houseId, { id, state, outcome, value }];
    }),
  );
}
