import { randomBytes } from 'node:crypto';
import { existsSync } from 'node:fs';
import { rm } from 'node:fs/promises';
import {
  appRole,
  ensureDatabase,
  ensureRole,
  ownerRole,
  urlFor,
  withClient,
} from '@countercheck/host/database';
import { startCluster } from '@countercheck/host/postgres/cluster';
import { throwAway } from '@countercheck/host/postgres/settings';
import { generatePrismaClient } from '@countercheck/host/prisma-client';
import type { TestProject } from 'vitest/node';
import { applyMigrations } from '../../prisma/migrate/apply.ts';
import { migrationsFolder } from '../../prisma/migrate/files.ts';
import { temporaryFolder } from './temporary.ts';

/** One PostgreSQL for the whole project, in a folder of its own, so that nothing else can be disturbed by it. */
export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  await generatePrismaClient();
  const folder = temporaryFolder('postgres');
  const secret = () => randomBytes(18).toString('hex');
  const [ownerPassword, appPassword] = [secret(), secret()];
  const cluster = await startCluster({
    directory: `${folder}/data`,
    password: secret(),
    settings: { ...throwAway, max_connections: '200' },
  });
  const stop = async () => {
    await cluster.stop('immediate');
    await rm(folder, { recursive: true, force: true });
  };
  try {
    const template = 'countercheck_template';
    await withClient(cluster.superuserUrl, async (client) => {
      await ensureRole(client, ownerRole, ownerPassword);
      await ensureRole(client, appRole, appPassword);
      await ensureDatabase(client, template, ownerRole);
    });
    const owner = { user: ownerRole, password: ownerPassword, database: template };
    if (existsSync(migrationsFolder)) await applyMigrations(urlFor(cluster.superuserUrl, owner));
    project.provide('databases', {
      superuserUrl: cluster.superuserUrl,
      ownerPassword,
      appPassword,
      template,
    });
  } catch (error) {
    await stop();
    throw error;
  }
  return stop;
}
