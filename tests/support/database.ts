import { randomUUID } from 'node:crypto';
import { appRole, ownerRole, urlFor, withClient } from '@countercheck/host/database';
import { databases } from './context.ts';

export interface FreshDatabase {
  /** The role that owns the tables and runs migrations. */
  ownerUrl: string;
  /** The role the API signs in with. */
  appUrl: string;
  drop(): Promise<void>;
}

/** A migrated, empty database of the caller's own, copied from the template the run prepared. */
export function freshDatabase(): Promise<FreshDatabase> {
  return copyOf(databases().template);
}

/** A database with the demo company in it; only for projects whose setup prepared one. */
export function demoDatabase(): Promise<FreshDatabase> {
  const { demoTemplate, demoProblem } = databases();
  if (!demoTemplate) throw new Error(demoProblem ?? 'This test project has no demo.');
  return copyOf(demoTemplate);
}

/** A database nothing was ever done to, for tests of the migrations themselves. */
export function unmigratedDatabase(): Promise<FreshDatabase> {
  return copyOf('template1');
}

async function copyOf(template: string): Promise<FreshDatabase> {
  const { superuserUrl, ownerPassword, appPassword } = databases();
  const database = `test_${randomUUID().replaceAll('-', '')}`;
  await withClient(superuserUrl, (client) =>
    client.query(`CREATE DATABASE ${database} TEMPLATE ${template} STRATEGY file_copy OWNER ${ownerRole}`),
  );
  return {
    ownerUrl: urlFor(superuserUrl, { user: ownerRole, password: ownerPassword, database }),
    appUrl: urlFor(superuserUrl, { user: appRole, password: appPassword, database }),
    async drop() {
      await withClient(superuserUrl, (client) =>
        client.query(`DROP DATABASE IF EXISTS ${database} WITH (FORCE)`),
      );
    },
  };
}
