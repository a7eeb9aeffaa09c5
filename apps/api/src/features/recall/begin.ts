import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import { recallProblem } from '@countercheck/assessment';
import { implement, implementInTransaction } from '../../kernel/http/implement.ts';
import { found, invalid } from '../../kernel/problems/app-error.ts';
import { record } from '../../kernel/records/events.ts';
import { askRun, cancelRun } from '../../kernel/runs/ask.ts';
import type { Runner } from '../../kernel/runs/runner.ts';
import { presentRecall, recallParts } from './present.ts';

export function beginRecalls(app: FastifyInstance, runner: Runner): void {
  implement(app, routes.recall.begin, async ({ database, actor, body, request }) => {
    const wrong = recallProblem(body);
    if (wrong) throw invalid(wrong.path, wrong.message);
    const answer = await database.as(actor, async (db) => {
      const { instrumentId, from, to, error, reason, note } = body;
      found(await db.instrument.findUnique({ where: { id: instrumentId } }), 'instrument');
      const { id } = await askRun(db, actor, 'recall');
      const dates = { fromOn: new Date(from), toOn: new Date(to) };
      const row = await db.recall.create({
        data: { ...{ id, instrumentId, error, reason, note }, ...dates },
        include: recallParts,
      });
      await record(db, actor, request.id, {
        ...{ action: 'recall begun', recordType: 'recall', recordId: id },
        after: body,
        reason,
      });
      return presentRecall(row);
    });
    runner.wake();
    return answer;
  });

  implementInTransaction(app, routes.recall.cancel, async ({ db, actor, params, request }) => {
    found(await db.recall.findUnique({ where: params, select: { id: true } }), 'recall');
    await cancelRun(db, params.id);
    await record(db, actor, request.id, {
      ...{ action: 'recall cancelled', recordType: 'recall', recordId: params.id },
    });
    return presentRecall(await db.recall.findUniqueOrThrow({ where: params, include: recallParts }));
  });
}
