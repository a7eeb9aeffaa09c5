import type { FastifyInstance } from 'fastify';
import { routes, type DrawPurpose, type ObligationShareRow } from '@countercheck/contracts';
import { defaultShares, obligationKinds } from '@countercheck/sampling';
import type { Db } from '../../../kernel/database/database.ts';
import { implementInTransaction } from '../../../kernel/http/implement.ts';
import { record } from '../../../kernel/records/events.ts';

const columnOf = { 'file-review': 'file_review', 'field-retest': 'field_retest' } as const;

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

export function changeShares(app: FastifyInstance): void {
  implementInTransaction(app, routes.sampling.changeShare, async ({ db, actor, body, request }) => {
    const { kind, share, minimum, source } = body;
    const before = (await sharesInForce(db))[kind];
    const data = { share, minimum, source, changedBy: actor.name };
    const purpose = columnOf[kind];
    await db.obligationShare.upsert({
      where: { purpose },
      create: { purpose, ...data },
      update: data,
    });
    await record(db, actor, request.id, {
      action: 'share changed',
      recordType: 'obligation share',
      recordId: kind,
      before: { share: before.share, minimum: before.minimum, source: before.source },
      after: { share, minimum, source },
    });
    return (await sharesInForce(db))[kind];
  });
}
