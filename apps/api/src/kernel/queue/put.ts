import PgBoss from 'pg-boss';
import type { Db } from '../database/database.ts';

/** Where the migrations put the tables of the queue. */
export const queueSchema = 'pgboss';

// Never started: it only knows how a job is written. Whoever puts one in brings the transaction.
const writer = new PgBoss({
  schema: queueSchema,
  db: { executeSql: () => Promise.reject(new Error('A job is put in within a transaction.')) },
});

/** Puts jobs in a queue in the transaction of what they are about. A job that is there already stays as it is. */
export async function queueJobs(db: Db, name: string, ids: readonly string[]): Promise<void> {
  if (ids.length === 0) return;
  await writer.insert(
    ids.map((id) => ({ id, name })),
    {
      db: {
        executeSql: async (text, values: unknown[]) => {
          await db.$executeRawUnsafe(text, ...values);
          return { rows: [] };
        },
      },
    },
  );
}
