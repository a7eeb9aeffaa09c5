import pg from 'pg';

// Any number will do as long as nothing else in the database takes the same one.
const key = 5_047_211;

/** Two replicas deployed at once both migrate; the second waits here and then finds nothing left to do. */
export async function withMigrationLock<T>(url: string, work: () => Promise<T>): Promise<T> {
  const client = new pg.Client({ connectionString: url, options: '-c timezone=UTC' });
  await client.connect();
  try {
    await client.query('SELECT pg_advisory_lock($1)', [key]);
    return await work();
  } finally {
    await client.end();
  }
}
