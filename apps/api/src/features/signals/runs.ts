import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import { implement, implementInTransaction } from '../../kernel/http/implement.ts';
import { found } from '../../kernel/problems/app-error.ts';
import { record } from '../../kernel/records/events.ts';
import { pageAnswer, pageWindow } from '../../kernel/records/page.ts';
import { askRun, cancelRun } from '../../kernel/runs/ask.ts';
import type { Runner } from '../../kernel/runs/runner.ts';
import { presentSignalRun, runParts } from './present.ts';

export function lookAtReadings(app: FastifyInstance, runner: Runner): void {
  implementInTransaction(app, routes.signals.runs, async ({ db, query }) => {
    const rows = await db.signalRun.findMany({
      include: runParts,
      orderBy: [{ run: { askedAt: 'desc' } }, { id: 'desc' }],
      ...pageWindow(query),
    });
    return pageAnswer(rows.map(presentSignalRun), await db.signalRun.count(), query);
  });

  implement(app, routes.signals.begin, async ({ database, actor, body, request }) => {
    const answer = await database.as(actor, async (db) => {
      const { id } = await askRun(db, actor, 'signals');
      const row = await db.signalRun.create({
        data: { id, fromOn: new Date(body.from), toOn: new Date(body.to) },
        include: runParts,
      });
      await record(db, actor, request.id, {
        ...{ action: 'look at readings asked', recordType: 'signal run', recordId: id },
        after: body,
      });
      return presentSignalRun(row);
    });
    runner.wake();
    return answer;
  });

  implementInTransaction(app, routes.signals.run, async ({ db, params }) =>
    presentSignalRun(found(await db.signalRun.findUnique({ where: params, include: runParts }), 'look')),
  );

  implementInTransaction(app, routes.signals.cancel, async ({ db, actor, params, request }) => {
    found(await db.signalRun.findUnique({ where: params, select: { id: true } }), 'look');
    await cancelRun(db, params.id);
    await record(db, actor, request.id, {
      ...{ action: 'look at readings cancelled', recordType: 'signal run', recordId: params.id },
    });
    return presentSignalRun(await db.signalRun.findUniqueOrThrow({ where: params, include: runParts }));
  });
}
