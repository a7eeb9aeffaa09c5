import { performance } from 'node:perf_hooks';
import { appRole, ownerRole, urlFor, withClient } from '@countercheck/host/database';
import { buildApp } from '../../apps/api/src/index.ts';
import { demoSignIns } from '../../prisma/demo/index.ts';
import { signedIn, testConfig } from '../support/app.ts';
import { prepareDatabases } from '../support/prepare.ts';
import { besideSql, type Endpoint } from './beside-sql.ts';
import { loadManyHouses, roomyDatabase } from './many-houses.ts';
import { recordSql } from './recorded-sql.ts';

/**
 * The five busiest endpoints with very many houses, beside the SQL they run through bare pg, interleaved in one
 * run. Usage: npm run bench endpoints [houses] [rounds]
 */
const houses = Number(process.argv[2] ?? 100_000);
const rounds = Number(process.argv[3] ?? 60);

const [databases, stop] = await prepareDatabases({ demo: true, settings: roomyDatabase });
try {
  if (!databases.demoTemplate) throw new Error(databases.demoProblem);
  const database = databases.demoTemplate;
  const ownerUrl = urlFor(databases.superuserUrl, {
    user: ownerRole,
    password: databases.ownerPassword,
    database,
  });
  const began = performance.now();
  const loaded = await loadManyHouses(urlFor(databases.superuserUrl, { database }), houses);
  console.log(
    `${loaded.houses} houses and ${loaded.readings} readings loaded in ${((performance.now() - began) / 1000).toFixed(0)} s`,
  );

  const appUrl = urlFor(databases.superuserUrl, { user: appRole, password: databases.appPassword, database });
  const app = await buildApp(testConfig(appUrl, { DATABASE_POOL: '2' }));
  const recorder = recordSql(app.database.pool);
  await app.ready();
  const as = async (role: string) => {
    const person = demoSignIns.find((each) => each.role === role);
    if (!person) throw new Error(`The demo has no ${role}.`);
    const client = await signedIn(app, person, person.password);
    return client;
  };
  const [office, rater, builder] = [await as('Office'), await as('Rater'), await as('Builder')];
  const visit = await withClient(ownerUrl, async (client) => {
    const { rows } = await client.query<{ id: string; house: string }>(
      `SELECT v.id, v.house_id AS house FROM visits v JOIN users u ON u.id = v.rater_id WHERE u.email = $1 ORDER BY v.starts_at LIMIT 1`,
      [demoSignIns.find(({ role }) => role === 'Rater')?.email],
    );
    return rows[0]!;
  });
  const today = new Date().toISOString().slice(0, 10);
  const endpoints: Endpoint[] = [
    ['office: houses, filtered by stage', () => office.get('/houses?stage=corrections&page=3')],
    ['office: houses, part of an address', () => office.get('/houses?search=Teasel')],
    ['rater: the day', () => rater.get(`/visits?from=${today}&to=${today}`)],
    ["rater: a house's sheet", () => rater.get(`/visits/${visit.id}/sheet`)],
    ['builder: own failed items', () => builder.get('/failed-items?state=not_closed')],
  ];

  await besideSql(appUrl, recorder, endpoints, rounds);
  await app.close();
} finally {
  await stop();
}
