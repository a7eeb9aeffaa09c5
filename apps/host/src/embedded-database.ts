import { join } from 'node:path';
import { Trouble } from '../bootstrap/trouble.mjs';
import { appRole, ensureDatabase, ensureRole, ownerRole, urlFor, withClient } from './database.ts';
import { dataFolder } from './places.ts';
import { startCluster, type Cluster } from './postgres/cluster.ts';
import { readSecrets, writeSecrets } from './secrets.ts';

export interface DatabaseUrls {
  owner: string;
  app: string;
}

/** The database that comes with Countercheck, kept in .data and reachable from this machine only. */
export async function startEmbeddedDatabase(): Promise<{ cluster: Cluster; urls: DatabaseUrls }> {
  const secrets = readSecrets();
  const cluster = await startCluster({
    directory: join(dataFolder, 'postgres'),
    password: secrets.superuser,
    port: secrets.databasePort,
  });
  try {
    if (cluster.port !== secrets.databasePort) writeSecrets({ ...secrets, databasePort: cluster.port });
    const database = 'countercheck';
    await withClient(cluster.superuserUrl, async (client) => {
      await ensureRole(client, ownerRole, secrets.owner);
      await ensureRole(client, appRole, secrets.app);
      await ensureDatabase(client, database, ownerRole);
    });
    return {
      cluster,
      urls: {
        owner: urlFor(cluster.superuserUrl, { user: ownerRole, password: secrets.owner, database }),
        app: urlFor(cluster.superuserUrl, { user: appRole, password: secrets.app, database }),
      },
    };
  } catch (error) {
    await cluster.stop();
    if ((error as { code?: string }).code === '28P01') {
      throw new Trouble(
        'The passwords in .data/secrets.json are not those of .data/postgres; put the file back from a backup, or delete the folder .data to begin anew.',
      );
    }
    throw error;
  }
}
