import type { FastifyInstance } from 'fastify';
import PgBoss from 'pg-boss';
import { queueSchema } from './put.ts';

interface QueueWork {
  name: string;
  /** how many jobs are fetched at once */
  batch: number;
  everySeconds: number;
  /** Does one job; what it throws has it tried again later, until the queue's limit. */
  work(id: string): Promise<void>;
}

/**
 * Works off a queue while the service is up, beside any other process that does the same: no job is fetched by
 * two. It begins when the service is ready, and what is being done is finished before the database is closed.
 */
export function workQueue(app: FastifyInstance, { name, batch, everySeconds, work }: QueueWork): void {
  const { pool } = app.database;
  let closed = false;
  const boss = new PgBoss({
    // pg-boss reports the end of a job without waiting; after the end of the service nobody is there to hear it.
    db: {
      executeSql: async (text, values) => (closed ? { rows: [] } : await pool.query(text, values)),
    },
    schema: queueSchema,
    migrate: false,
    schedule: false,
    // Jobs of processes that died are looked for twice a minute, by one process at a time.
    ...{ supervise: true, maintenanceIntervalSeconds: 30 },
  });
  boss.on('error', (error) => app.log.warn({ err: error, queue: name }, 'the queue could not be worked off'));

  const handle = async (jobs: PgBoss.Job[]) => {
    for (const { id } of jobs) {
      try {
        await work(id);
      } catch (error) {
        await boss.fail(name, id, { message: error instanceof Error ? error.message : String(error) });
        continue;
      }
      // One by one, so that a process that dies half-way through leaves only what it had not done.
      await boss.complete(name, id);
    }
  };
  app.addHook('onReady', async () => {
    await boss.start();
    // What a process that died was at is not left until the next look.
    await boss.maintain();
    await boss.work(name, { batchSize: batch, pollingIntervalSeconds: everySeconds }, handle);
  });
  app.addHook('onClose', async () => {
    await boss.stop({ graceful: true, wait: true, timeout: 8_000 });
    closed = true;
  });
}
