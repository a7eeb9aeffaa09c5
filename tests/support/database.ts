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
export async function freshDatabase(): Promise<FreshDatabase> {
  const { superuserUrl, ownerPassword, appPassword, template } = databases();
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
