import pg from 'pg';
import PgBoss from 'pg-boss';

/** Queues that the service works off. Each is a table of its own, so the owner makes it here and not the service. */
const queues: PgBoss.Queue[] = [
  {
    name: 'mail',
    // After a minute, then two, four … over about four hours and a half: a mail server has a bad day, not a bad week.
    ...{ retryLimit: 9, retryDelay: 60, retryBackoff: true },
    // What a process that died was at is taken up after this time.
    expireInSeconds: 300,
    retentionMinutes: 14 * 24 * 60,
  },
];

/**
 * Brings the tables of the job queue (schema `pgboss`) to the version that the service expects, with its queues,
 * and gives the service's role what it needs to put in and work off jobs, and no more: it owns none of it.
 */
export async function prepareQueues(ownerUrl: string): Promise<void> {
  const pool = new pg.Pool({ connectionString: ownerUrl, options: '-c timezone=UTC', max: 1 });
  const boss = new PgBoss({
    db: { executeSql: (text, values) => pool.query(text, values) },
    ...{ schema: 'pgboss', migrate: true, supervise: false, schedule: false },
  });
  boss.on('error', (error) => console.error(error.message));
  try {
    await boss.start();
    for (const queue of queues) await boss.createQueue(queue.name, queue);
    const { rowCount } = await pool.query(`SELECT 1 FROM pg_roles WHERE rolname = 'countercheck_app'`);
    if (rowCount)
      await pool.query(`
        GRANT USAGE ON SCHEMA pgboss TO countercheck_app;
        GRANT SELECT, INSERT, UPDATE, DELETE ON ALL TABLES IN SCHEMA pgboss TO countercheck_app;`);
    await boss.stop({ graceful: false });
  } finally {
    await pool.end();
  }
}
