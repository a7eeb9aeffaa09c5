import type { RunKind, RunState } from '@countercheck/prisma';
import { system } from '../actor.ts';
import type { Database, Db } from '../database/database.ts';

/** A process that has not said for so long that it is at work has ended without a word. */
const silentAfter = '15 seconds';

/** Takes the run that has waited longest, so that no other process takes it too. */
export async function claimRun(database: Database, kind: RunKind, runner: string): Promise<string | null> {
  const rows = await database.as(
    system,
    (db) => db.$queryRaw<{ id: string }[]>`
      UPDATE background_runs
      SET state = 'running', runner = ${runner}, started_at = now(), heartbeat_at = now(), done = 0, total = NULL
      WHERE id = (
        SELECT id FROM background_runs WHERE state = 'waiting' AND kind = ${kind}::run_kind
        ORDER BY asked_at FOR UPDATE SKIP LOCKED LIMIT 1)
      RETURNING id`,
  );
  return rows[0]?.id ?? null;
}

export type Beat = 'go on' | 'cancel' | 'lost';

/** Says that the run is being worked on, and hears whether it is still wanted. */
export async function beat(
  database: Database,
  runner: string,
  id: string,
  { done, total }: { done: number; total: number | null },
): Promise<Beat> {
  const rows = await database.as(
    system,
    (db) => db.$queryRaw<{ cancel_asked: boolean }[]>`
      UPDATE background_runs SET heartbeat_at = now(), done = ${done}, total = ${total}
      WHERE id = ${id}::uuid AND state = 'running' AND runner = ${runner} RETURNING cancel_asked`,
  );
  const [row] = rows;
  return row === undefined ? 'lost' : row.cancel_asked ? 'cancel' : 'go on';
}

/** Ends a run of one's own; false when another process has ended it meanwhile. */
export async function settleRun(
  db: Db,
  runner: string,
  id: string,
  state: RunState,
  progress: { done: number; total: number | null },
  problem: string | null = null,
): Promise<boolean> {
  const { count } = await db.backgroundRun.updateMany({
    where: { id, state: 'running', runner },
    data: { state, problem, endedAt: state === 'waiting' ? null : new Date(), ...progress },
  });
  return count === 1;
}

/** Marks the runs whose process has ended, for the next that looks where they go on, and gives their ids. */
export async function sweepRuns(
  database: Database,
  kind: RunKind,
  left: 'interrupted' | 'waiting',
): Promise<string[]> {
  const rows = await database.as(
    system,
    (db) => db.$queryRaw<{ id: string }[]>`
      UPDATE background_runs SET state = ${left}::run_state, runner = NULL,
        ended_at = CASE WHEN ${left} = 'waiting' THEN NULL ELSE now() END
      WHERE state = 'running' AND kind = ${kind}::run_kind AND heartbeat_at < now() - ${silentAfter}::interval
      RETURNING id`,
  );
  return rows.map(({ id }) => id);
}
