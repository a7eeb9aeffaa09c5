import type { DrawPurpose, ObligationShareRow } from '@countercheck/contracts';
import { defaultShares, obligationKinds } from '@countercheck/sampling';
import type { Db } from '../../kernel/database/database.ts';

export const columnOf = { 'file-review': 'file_review', 'field-retest': 'field_retest' } as const;

/** The shares in force, the company's own where it has set one. */
export async function sharesInForce(db: Db): Promise<Record<DrawPurpose, ObligationShareRow>> {
  const rows = await db.obligationShare.findMany();
  const of = (kind: DrawPurpose): ObligationShareRow => {
    const row = rows.find(({ purpose }) => purpose === columnOf[kind]);
    const usual = defaultShares[kind];
    if (!row) return { kind, ...usual, usual: true, changedBy: null, changedAt: null };
    const { share, minimum, source, changedBy, changedAt } = row;
    return {
      ...{ kind, share, minimum, source, changedBy, changedAt: changedAt.toISOString(), usual: false },
      mark: 'common practice, no published source',
    };
  };
  return Object.fromEntries(obligationKinds.map((kind) => [kind, of(kind)])) as Record<
    DrawPurpose,
    ObligationShareRow
  >;
}
