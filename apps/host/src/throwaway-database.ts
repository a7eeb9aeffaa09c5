import { randomBytes } from 'node:crypto';
import { chmodSync, mkdtempSync } from 'node:fs';
import { rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { appRole, ensureRole, withClient } from './database.ts';
import { startCluster } from './postgres/cluster.ts';
import { throwAway } from './postgres/settings.ts';

/** A whole server for one piece of work, so that working out a migration never touches anybody's data. */
export async function withThrowawayDatabase<T>(work: (url: string) => Promise<T>): Promise<T> {
  const folder = mkdtempSync(join(tmpdir(), 'countercheck-'));
  chmodSync(folder, 0o755);
  try {
    const password = randomBytes(18).toString('hex');
    const cluster = await startCluster({ directory: join(folder, 'data'), password, settings: throwAway });
    try {
      await withClient(cluster.superuserUrl, (client) => ensureRole(client, appRole, password));
      return await work(cluster.superuserUrl);
    } finally {
      await cluster.stop('immediate');
    }
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}
