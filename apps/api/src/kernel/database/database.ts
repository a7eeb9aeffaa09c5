import { PrismaPg } from '@prisma/adapter-pg';
import { Pool } from 'pg';
import { PrismaClient, type Prisma } from '@countercheck/prisma';
import { databaseScope, type Actor } from '../actor.ts';

/** The client inside a transaction whose first statement said who is asking. */
export type Db = Prisma.TransactionClient;

export interface Database {
  pool: Pool;
  /**
   * Runs the work in one transaction, seen by row-level security as the actor. Commits when it returns; given up
   * after a minute unless told otherwise.
   */
  as<T>(actor: Actor, work: (db: Db) => Promise<T>, options?: { timeoutMs?: number }): Promise<T>;
  /**
   * As `as`, for work that only reads: everything is seen as it stood at one moment. Otherwise a record and its
   * parts, which are read by statements of their own, could be told from before and after somebody's commit.
   */
  read<T>(actor: Actor, work: (db: Db) => Promise<T>): Promise<T>;
  close(): Promise<void>;
}

const usualTimeoutMs = 60_000;

export function openDatabase(url: string, size: number, onError: (error: Error) => void): Database {
  const pool = new Pool({
    connectionString: url,
    max: size,
    // Prisma reads timestamptz rightly only in UTC.
    options: '-c timezone=UTC',
    connectionTimeoutMillis: 5_000,
    idleTimeoutMillis: 30_000,
    statement_timeout: 60_000,
    application_name: 'countercheck',
  });
  // An idle connection that the server drops must not end the process.
  pool.on('error', onError);
  const prisma = new PrismaClient({ adapter: new PrismaPg(pool, { disposeExternalPool: false }) });

  function transaction<T>(
    actor: Actor,
    work: (db: Db) => Promise<T>,
    options: { isolationLevel?: 'RepeatableRead'; timeout?: number },
  ): Promise<T> {
    const { scope, builderId, houseId, userId } = databaseScope(actor);
    return prisma.$transaction(
      async (db) => {
        await db.$executeRaw`SELECT set_config('app.scope', ${scope}, true),
          set_config('app.builder_id', ${builderId}, true), set_config('app.house_id', ${houseId}, true),
          set_config('app.user_id', ${userId}, true)`;
        return work(db);
      },
      { maxWait: 10_000, timeout: usualTimeoutMs, ...options },
    );
  }

  return {
    pool,
    as: (actor, work, { timeoutMs = usualTimeoutMs } = {}) =>
      transaction(actor, work, { timeout: timeoutMs }),
    read: (actor, work) => transaction(actor, work, { isolationLevel: 'RepeatableRead' }),
    close: async () => {
      await prisma.$disconnect();
      await pool.end();
    },
  };
}
