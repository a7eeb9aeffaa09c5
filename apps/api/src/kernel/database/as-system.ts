import { databaseScope, type Actor } from '../actor.ts';
import type { Db } from './database.ts';

/**
 * Lets the service look beyond what an outside party may see, within that party's own transaction: a builder's
 * correction or an installer's figures change verdicts whose readings neither may read.
 */
export async function asSystem<T>(db: Db, actor: Actor, work: () => Promise<T>): Promise<T> {
  await db.$executeRaw`SELECT set_config('app.scope', 'system', true)`;
  const result = await work();
  // After an error the transaction is lost, and the setting with it.
  await db.$executeRaw`SELECT set_config('app.scope', ${databaseScope(actor).scope}, true)`;
  return result;
}
