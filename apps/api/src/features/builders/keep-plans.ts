import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { found } from '../../kernel/problems/app-error.ts';
import { record } from '../../kernel/records/events.ts';
import { given } from '../../kernel/records/given.ts';
import { planCounts, presentPlan } from './present.ts';

export function keepPlans(app: FastifyInstance): void {
  implementInTransaction(app, routes.builders.addPlan, async ({ db, actor, params, body, request }) => {
    found(await db.builder.findUnique({ where: params }), 'builder');
    const row = await db.plan.create({ data: { ...body, builderId: params.id }, include: planCounts });
    await record(db, actor, request.id, {
      action: 'plan added',
      recordType: 'plan',
      recordId: row.id,
      after: body,
    });
    return presentPlan(row);
  });

  implementInTransaction(app, routes.builders.changePlan, async ({ db, actor, params, body, request }) => {
    const before = found(await db.plan.findUnique({ where: params }), 'plan');
    const row = await db.plan.update({ where: params, data: given(body), include: planCounts });
    await record(db, actor, request.id, {
      action: 'plan changed',
      recordType: 'plan',
      recordId: row.id,
      before,
      after: body,
    });
    return presentPlan(row);
  });
}
