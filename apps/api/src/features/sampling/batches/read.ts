import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import { batchRuleSets } from '@countercheck/sampling';
import { implementInTransaction } from '../../../kernel/http/implement.ts';
import { pageAnswer, pageWindow } from '../../../kernel/records/page.ts';
import { batchParts, findBatch } from './parts.ts';
import { presentBatch, presentBatchSummary, presentRules } from './present.ts';

export function readBatches(app: FastifyInstance): void {
  implementInTransaction(app, routes.batches.rules, async () => batchRuleSets.map(presentRules));

  implementInTransaction(app, routes.batches.list, async ({ db, query }) => {
    const rows = await db.batch.findMany({
      include: batchParts,
      orderBy: [{ openedAt: 'desc' }, { id: 'desc' }],
      ...pageWindow(query),
    });
    return pageAnswer(rows.map(presentBatchSummary), await db.batch.count(), query);
  });

  implementInTransaction(app, routes.batches.show, async ({ db, params }) =>
    presentBatch(db, await findBatch(db, params.id)),
  );
}
