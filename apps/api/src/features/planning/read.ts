import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { found } from '../../kernel/problems/app-error.ts';
import { pageAnswer, pageWindow } from '../../kernel/records/page.ts';
import { planParts, presentPlan, presentSummary } from './present.ts';

export function readPlans(app: FastifyInstance): void {
  implementInTransaction(app, routes.planning.list, async ({ db, query }) => {
    const rows = await db.weekPlan.findMany({
      include: planParts,
      orderBy: [{ run: { askedAt: 'desc' } }, { id: 'desc' }],
      ...pageWindow(query),
    });
    return pageAnswer(rows.map(presentSummary), await db.weekPlan.count(), query);
  });

  implementInTransaction(app, routes.planning.show, async ({ db, params }) =>
    presentPlan(db, found(await db.weekPlan.findUnique({ where: params, include: planParts }), 'plan')),
  );
}
