import type { BackgroundRun as RunAnswer } from '@countercheck/contracts';
import type { BackgroundRun, RunKind } from '@countercheck/prisma';
import type { UserActor } from '../actor.ts';
import type { Db } from '../database/database.ts';
import { AppError } from '../problems/app-error.ts';

export function askRun(db: Db, actor: UserActor, kind: RunKind): Promise<BackgroundRun> {
  return db.backgroundRun.create({ data: { kind, askedById: actor.id, askedBy: actor.name } });
}

/** A run that waits is cancelled at once; one at work hears of it at its next beat. */
export async function cancelRun(db: Db, id: string): Promise<void> {
  const waiting = await db.backgroundRun.updateMany({
    where: { id, state: 'waiting' },
    data: { state: 'cancelled', cancelAsked: true, endedAt: new Date() },
  });
  if (waiting.count === 1) return;
  const running = await db.backgroundRun.updateMany({
    where: { id, state: 'running' },
    data: { cancelAsked: true },
  });
  if (running.count === 0)
    throw new AppError('conflict', 'It has ended already; there is nothing to cancel.');
}

export function presentRun(row: BackgroundRun): RunAnswer {
  return {
    id: row.id,
    state: row.state,
    done: row.done,
    total: row.total,
    problem: row.problem,
    cancelAsked: row.cancelAsked,
    askedBy: row.askedBy,
    askedAt: row.askedAt.toISOString(),
    startedAt: row.startedAt?.toISOString() ?? null,
    endedAt: row.endedAt?.toISOString() ?? null,
  };
}
