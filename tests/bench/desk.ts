import { performance } from 'node:perf_hooks';
import { appRole, ownerRole, urlFor, withClient } from '@countercheck/host/database';
import { buildApp } from '../../apps/api/src/index.ts';
import { demoSignIns } from '../../prisma/demo/index.ts';
import { signedIn, testConfig } from '../support/app.ts';
import { prepareDatabases } from '../support/prepare.ts';
import { besideSql, type Endpoint } from './beside-sql.ts';
import { loadManyHouses } from './many-houses.ts';
import { recordSql } from './recorded-sql.ts';

/**
 * The quality manager's desk with very many houses, beside the SQL that it runs through bare pg, in turn in one run.
 * Usage: npm run bench desk [houses] [rounds]
 */
const houses = Number(process.argv[2] ?? 100_000);
const rounds = Number(process.argv[3] ?? 15);
const most = 3;

const [databases, stop] = await prepareDatabases({ demo: true });
try {
  if (!databases.demoTemplate) throw new Error(databases.demoProblem);
  const { superuserUrl, ownerPassword, appPassword, demoTemplate: database } = databases;
  const ownerUrl = urlFor(superuserUrl, { user: ownerRole, password: ownerPassword, database });
  const began = performance.now();
  const loaded = await loadManyHouses(ownerUrl, houses);
  const more = await withClient(ownerUrl, async (client) => {
    const tables = ['item_results', 'failed_items', 'file_reviews', 'visits'];
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
  const draw = await quality.post('/draws', {
    ...{ title: 'Bench', purpose: 'file-review', method: 'simple', size: { share: 1000 } },
  });
  const { id } = draw.json<{ id: string }>();
  const endpoints: Endpoint[] = [
    ['files waiting for release', () => quality.get('/reviews/queue')],
    ['obligations of this year', () => quality.get('/obligations')],
    ["a draw's population", () => quality.post(`/draws/${id}/population`, { leaveOutDone: true })],
    ['what failed, by item', () => quality.get('/failed-items/groups?by=item')],
    ['passed the first time, by rater', () => quality.get('/failed-items/first-time?by=rater')],
    ['failed again and again', () => quality.get('/failed-items/repeats')],
    ['time to reinspection', () => quality.get('/failed-items/waiting')],
  ];
  const ratios = await besideSql(appUrl, recorder, endpoints, rounds);
  const reached = ratios.every((ratio) => ratio < most);
  console.log(`Aim of less than ${most} × the SQL: ${reached ? 'reached' : 'MISSED'}`);
  if (!reached) process.exitCode = 1;
  await app.close();
} finally {
  await stop();
}
