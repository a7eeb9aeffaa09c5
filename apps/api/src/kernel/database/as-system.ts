import { databaseScope, type Actor } from '../actor.ts';
import type { Db } from './database.ts';

/**
 * Lets the service look beyond what an outside party may see, within that party's own transaction: a builder's
 * correction or an installer's figures change verdicts whose readings neither may read. Staff see as much
 * themselves. May be nested; what was in force before is in force again after it.
 */
export async function asSystem<T>(db: Db, actor: Actor, work: () => Promise<T>): Promise<T> {
  const { scope } = databaseScope(actor);
  if (scope === 'staff' || scope === 'system') return work();
  const [before] = await db.$queryRaw<{ scope: string }[]>`
    WITH before AS MATERIALIZED (SELECT current_setting('app.scope', true) AS scope)
    SELECT scope, set_config('app.scope', 'system', true) FROM before`;
  const result = await work();
  // After an error the transaction is lost, and the setting with it.
  await db.$executeRaw`SELECT set_config('app.scope', ${before?.scope ?? scope}, true)`;
  return result;
}
