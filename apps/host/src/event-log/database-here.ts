import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { ownerRole, urlFor, withClient } from '../database.ts';
import { startEmbeddedDatabase } from '../embedded-database.ts';
import { dataFolder } from '../places.ts';
import { readSecrets } from '../secrets.ts';

/**
 * Gives the work the database of DATABASE_URL, or else the one below .data: that of the service running there, or
 * started for this and stopped again.
 */
export async function withDatabaseHere<T>(work: (url: string) => Promise<T>): Promise<T> {
  const given = process.env['DATABASE_URL'];
  if (given) return work(given);
  if (!existsSync(join(dataFolder, 'secrets.json')))
    throw new Error(`There is no database below ${dataFolder}; name one in DATABASE_URL.`);
  const { owner, databasePort } = readSecrets();
  if (databasePort) {
    const base = `postgresql://${ownerRole}@127.0.0.1:${databasePort}/countercheck`;
    const url = urlFor(base, { password: owner });
    const answers = await withClient(url, (client) => client.query('SELECT 1')).then(
      () => true,
      () => false,
    );
    if (answers) return work(url);
  }
  const { cluster, urls } = await startEmbeddedDatabase();
  try {
    return await work(urls.owner);
  } finally {
    await cluster.stop();
  }
}
