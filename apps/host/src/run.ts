import { join } from 'node:path';
import { applyMigrations } from '../../../prisma/migrate/apply.ts';
import type { Address } from '../bootstrap/address.mjs';
import type { Cleanup } from '../bootstrap/cleanup.mjs';
import { step as show } from '../bootstrap/steps.mjs';
import { startApi } from './api.ts';
import { demoSignIns, hasDemo, loadDemo, table } from './demo.ts';
import { startEmbeddedDatabase, type DatabaseUrls } from './embedded-database.ts';
import { useGivenDatabase } from './given-database.ts';
import { dataFolder } from './places.ts';
import { generatePrismaClient } from './prisma-client.ts';
import { readSecrets } from './secrets.ts';
import { buildWeb, webDist } from './web-build.ts';

async function openDatabase(cleanup: Cleanup): Promise<DatabaseUrls> {
  const given = process.env['DATABASE_URL'];
  if (given) return useGivenDatabase(given, process.env['APP_DATABASE_URL']);
  const { cluster, urls } = await startEmbeddedDatabase();
  cleanup.add(() => cluster.stop());
  return urls;
}

/** Everything after the dependencies are there, up to the address and the sign-ins. */
export async function run(address: Address, cleanup: Cleanup): Promise<void> {
  const step = <T>(name: string, work: () => Promise<T>) => show(name, work, cleanup.signal);
  const urls = await step('Database running', () => openDatabase(cleanup));
  await step('Database client generated', generatePrismaClient);
  await step('Migrations applied', () => applyMigrations(urls.owner));
  const secretKey = process.env['SECRET_KEY'] ?? readSecrets().key;
  const demo = process.env['DEMO'] !== 'off' && hasDemo();
  if (demo) await step('Demo company loaded', () => loadDemo(urls.owner, secretKey));
  await step('Web app built', buildWeb);
  const logFile = join(dataFolder, 'api.log');
  const api = await step('API answering', () =>
    startApi({
      port: address.port,
      host: address.host,
      publicUrl: address.url,
      databaseUrl: urls.app,
      webDist,
      env: { SECRET_KEY: secretKey },
      logFile,
    }),
  );
  let wanted = false;
  cleanup.add(async () => {
    wanted = true;
    await api.stop();
  });
  void api.ended.then(async (code) => {
    if (wanted) return;
    console.error(`The API ended by itself with ${code}; its log is ${logFile}.\n${api.lastWords()}`);
    await cleanup.run();
    process.exit(1);
  });

  console.log(`\nCountercheck is ready at ${address.url}\n`);
  const signIns = demo ? await demoSignIns(urls.owner) : [];
  if (signIns.length > 0) {
    const rows = signIns.map(({ role, name, email, password }) => [role, name, email, password]);
    console.log(`${table([['Role', 'Name', 'Email', 'Password'], ...rows])}\n`);
  }
  console.log('Ctrl-C stops it; the data stays.');
}
