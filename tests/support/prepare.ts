import { randomBytes } from 'node:crypto';
import { rm } from 'node:fs/promises';
import {
  appRole,
  ensureDatabase,
  ensureRole,
  ownerRole,
  urlFor,
  withClient,
} from '@countercheck/host/database';
import { loadDemo } from '@countercheck/host/demo';
import { startCluster } from '@countercheck/host/postgres/cluster';
import { throwAway } from '@countercheck/host/postgres/settings';
import { applyMigrations } from '../../prisma/migrate/apply.ts';
import type { TestDatabases } from './context.ts';
import { secretKey } from './secret-key.ts';
import { temporaryFolder } from './temporary.ts';

type Teardown = () => Promise<void>;

/** One PostgreSQL for the whole project, in a folder of its own, so that nothing else can be disturbed by it. */
export async function prepareDatabases({
  demo,
  settings = {},
}: {
  demo: boolean;
  settings?: Record<string, string>;
}): Promise<[TestDatabases, Teardown]> {
  const folder = temporaryFolder('postgres');
  const secret = () => randomBytes(18).toString('hex');
  const [ownerPassword, appPassword] = [secret(), secret()];
  const cluster = await startCluster({
    directory: `${folder}/data`,
    password: secret(),
    settings: { ...throwAway, max_connections: '200', ...settings },
  });
  const { superuserUrl } = cluster;
  const stop = async () => {
    await cluster.stop('immediate');
    await rm(folder, { recursive: true, force: true });
  };
  try {
    const template = 'countercheck_template';
    const ownerOf = (database: string) =>
      urlFor(superuserUrl, { user: ownerRole, password: ownerPassword, database });
    await withClient(superuserUrl, async (client) => {
      await ensureRole(client, ownerRole, ownerPassword);
      await ensureRole(client, appRole, appPassword);
      await ensureDatabase(client, template, ownerRole);
    });
    await applyMigrations(ownerOf(template));
    const ready: TestDatabases = { superuserUrl, ownerPassword, appPassword, template };
    if (!demo) return [ready, stop];

    const demoTemplate = 'countercheck_demo_template';
    await withClient(superuserUrl, (client) =>
      client.query(`CREATE DATABASE ${demoTemplate} TEMPLATE ${template} OWNER ${ownerRole}`),
    );
    try {
      await loadDemo(ownerOf(demoTemplate), secretKey);
    } catch (error) {
      // Told by the tests that need the demo, so that the others still run.
      return [{ ...ready, demoProblem: error instanceof Error ? error.message : String(error) }, stop];
    }
    return [{ ...ready, demoTemplate }, stop];
  } catch (error) {
    await stop();
    throw error;
  }
}
