import { performance } from 'node:perf_hooks';
import { appRole, ownerRole, urlFor, withClient } from '@countercheck/host/database';
import { buildApp } from '../../apps/api/src/index.ts';
import { demoSignIns } from '../../prisma/demo/index.ts';
import { signedIn, testConfig } from '../support/app.ts';
import { prepareDatabases } from '../support/prepare.ts';
import { besideSql } from './beside-sql.ts';
import { deskEndpoints } from './desk-endpoints.ts';
import { lookAtAll } from './look-at-all.ts';
import { loadManyHouses, roomyDatabase } from './many-houses.ts';
import { recordSql } from './recorded-sql.ts';

/**
 * The quality manager's desk with very many houses: how long a look at all readings takes and what memory it needs,
 * then what is opened all day beside the SQL that it runs through bare pg, in turn in one run.
 * Usage: npm run bench desk [houses] [rounds]
 */
const houses = Number(process.argv[2] ?? 100_000);
const rounds = Number(process.argv[3] ?? 15);
const [most, longestMs] = [3, 1_000];

const [databases, stop] = await prepareDatabases({ demo: true, settings: roomyDatabase });
try {
  if (!databases.demoTemplate) throw new Error(databases.demoProblem);
  const { superuserUrl, ownerPassword, appPassword, demoTemplate: database } = databases;
  const ownerUrl = urlFor(superuserUrl, { user: ownerRole, password: ownerPassword, database });
  const began = performance.now();
  const loaded = await loadManyHouses(urlFor(superuserUrl, { database }), houses);
  const more = await withClient(ownerUrl, async (client) => {
    const tables = ['item_results', 'failed_items', 'file_reviews', 'retests', 'visits', 'attachments'];
    const counts = tables.map((table) => `(SELECT count(*) FROM ${table}) AS ${table}`).join(', ');
    return (await client.query<Record<string, string>>(`SELECT ${counts}`)).rows[0]!;
  });
  const rest = Object.entries(more).map(([table, count]) => `${count} ${table.replaceAll('_', ' ')}`);
  console.log(
    `${loaded.houses} houses, ${loaded.readings} readings, ${rest.join(', ')} in ${((performance.now() - began) / 1000).toFixed(0)} s`,
  );

  const appUrl = urlFor(superuserUrl, { user: appRole, password: appPassword, database });
  const app = await buildApp(testConfig(appUrl, { DATABASE_POOL: '2' }));
  const recorder = recordSql(app.database.pool);
  await app.ready();
  const person = demoSignIns.find(({ role }) => role === 'Quality manager')!;
  const quality = await signedIn(app, person, person.password);
  console.log(await lookAtAll(quality));
  const measured = await besideSql(appUrl, recorder, await deskEndpoints(quality, ownerUrl), rounds);
  const over = measured.filter(({ ratio, p50 }) => ratio >= most || p50 >= longestMs);
  console.log(
    `Aim of less than ${most} × the SQL and ${longestMs} ms: ${over.length === 0 ? 'reached' : `MISSED by ${over.map(({ name }) => name).join(', ')}`}`,
  );
  if (over.length > 0) process.exitCode = 1;
  await app.close();
} finally {
  await stop();
}
