import { withClient } from '@countercheck/host/database';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { freshDatabase, type FreshDatabase } from '../support/database.ts';

let database: FreshDatabase;
beforeAll(async () => {
  database = await freshDatabase();
});
afterAll(() => database.drop());

test('the API signs in as a role that cannot step around row level security', async () => {
  const role = await withClient(database.appUrl, async (client) => {
    const { rows } = await client.query<Record<string, boolean>>(
      'SELECT rolsuper, rolbypassrls, rolcreaterole, rolcreatedb FROM pg_roles WHERE rolname = current_user',
    );
    return rows[0];
  });
  expect(role).toEqual({ rolsuper: false, rolbypassrls: false, rolcreaterole: false, rolcreatedb: false });
});

test('every session counts time in UTC', async () => {
  const zone = await withClient(
    database.appUrl,
    async (client) => (await client.query('SHOW timezone')).rows,
  );
  expect(zone).toEqual([{ TimeZone: 'UTC' }]);
});
