import type { FastifyInstance } from 'fastify';
import type * as z from 'zod';
import { type askPlanBody, routes } from '@countercheck/contracts';
import type { UserActor } from '../../kernel/actor.ts';
import type { Db } from '../../kernel/database/database.ts';
import { implement, implementInTransaction } from '../../kernel/http/implement.ts';
import { found, invalid } from '../../kernel/problems/app-error.ts';
import { record } from '../../kernel/records/events.ts';
import { askRun, cancelRun } from '../../kernel/runs/ask.ts';
import type { Runner } from '../../kernel/runs/runner.ts';
import { companyOptions, dayAt } from '../assessment/index.ts';
import { planParts, presentPlan } from './present.ts';

async function askPlan(db: Db, actor: UserActor, requestId: string, body: z.output<typeof askPlanBody>) {
  const { from, to, requestIds, ...asked } = body;
  const { timezone } = await companyOptions(db);
  if (to < dayAt(new Date(), timezone)) throw invalid('to', 'These days are over.');
  const ids = [...asked.raterIds, ...asked.awayRaterIds];
  const raters = await db.user.count({ where: { id: { in: ids }, role: 'rater', active: true } });
  if (raters < new Set(ids).size) throw invalid('raterIds', 'Somebody chosen does not work as a rater.');
  const { id } = await askRun(db, actor, 'plan');
  const row = await db.weekPlan.create({
    data: {
      ...{ id, ...asked, fromOn: new Date(from), toOn: new Date(to) },
      ...(requestIds ? { requestIds } : {}),
    },
    include: planParts,
  });
  await record(db, actor, requestId, {
    action: 'week plan asked',
    recordType: 'week plan',
    recordId: id,
    after: { from, to, replan: asked.replan, raterIds: asked.raterIds, awayRaterIds: asked.awayRaterIds },
    reason: asked.note,
  });
  return presentPlan(db, row);
}

export function askPlans(app: FastifyInstance, runner: Runner): void {
  implement(app, routes.planning.ask, async ({ database, actor, body, request }) => {
    const answer = await database.as(actor, (db) => askPlan(db, actor, request.id, body));
    runner.wake();
    return answer;
  });

  implementInTransaction(app, routes.planning.cancel, async ({ db, actor, params, request }) => {
    found(await db.weekPlan.findUnique({ where: params, select: { id: true } }), 'plan');
    await cancelRun(db, params.id);
    await record(db, actor, request.id, {
      action: 'week plan cancelled',
      recordType: 'week plan',
      recordId: params.id,
    });
    return presentPlan(db, await db.weekPlan.findUniqueOrThrow({ where: params, include: planParts }));
  });
}
