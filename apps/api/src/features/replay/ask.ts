import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import type { UserActor } from '../../kernel/actor.ts';
import type { Db } from '../../kernel/database/database.ts';
import { implement, implementInTransaction } from '../../kernel/http/implement.ts';
import { AppError, found } from '../../kernel/problems/app-error.ts';
import { record } from '../../kernel/records/events.ts';
import { askRun, cancelRun } from '../../kernel/runs/ask.ts';
import type { Runner } from '../../kernel/runs/runner.ts';
import { presentReplay, replayParts } from './present.ts';
import type { ReplayFilter } from './select-houses.ts';

interface Asked {
  ruleSetId: string;
  filter: ReplayFilter;
  note: string | null;
}

async function askReplay(db: Db, actor: UserActor, requestId: string, asked: Asked) {
  const { filter } = asked;
  found(await db.ruleSet.findUnique({ where: { id: asked.ruleSetId }, select: { id: true } }), 'rule set');
  const named = [
    ['builder', filter.builderId && (await db.builder.count({ where: { id: filter.builderId } }))],
    ['community', filter.communityId && (await db.community.count({ where: { id: filter.communityId } }))],
    ['rule set', filter.ruleSetId && (await db.ruleSet.count({ where: { id: filter.ruleSetId } }))],
  ] as const;
  for (const [what, count] of named)
    if (count === 0) throw new AppError('not-found', `There is no such ${what}.`);
  const { id } = await askRun(db, actor, 'replay');
  const row = await db.replay.create({ data: { id, ...asked }, include: replayParts });
  await record(db, actor, requestId, {
    action: 'replay asked',
    recordType: 'replay',
    recordId: id,
    after: asked,
    reason: asked.note,
  });
  return presentReplay(db, row);
}

export function askReplays(app: FastifyInstance, runner: Runner): void {
  implement(app, routes.replay.ask, async ({ database, actor, body, request }) => {
    const answer = await database.as(actor, (db) => askReplay(db, actor, request.id, body));
    runner.wake();
    return answer;
  });

  implement(app, routes.replay.again, async ({ database, actor, params, request }) => {
    const answer = await database.as(actor, async (db) => {
      const row = found(await db.replay.findUnique({ where: params, include: { run: true } }), 'replay');
      if (row.run.state === 'waiting' || row.run.state === 'running')
        throw new AppError('conflict', 'It has not ended yet.');
      const { ruleSetId, note } = row;
      return askReplay(db, actor, request.id, {
        ...{ ruleSetId, note },
        filter: row.filter as unknown as ReplayFilter,
      });
    });
    runner.wake();
    return answer;
  });

  implementInTransaction(app, routes.replay.cancel, async ({ db, actor, params, request }) => {
    found(await db.replay.findUnique({ where: params, select: { id: true } }), 'replay');
    await cancelRun(db, params.id);
    await record(db, actor, request.id, {
      action: 'replay cancelled',
      recordType: 'replay',
      recordId: params.id,
    });
    return presentReplay(db, await db.replay.findUniqueOrThrow({ where: params, include: replayParts }));
  });
}
