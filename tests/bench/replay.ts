import { performance } from 'node:perf_hooks';
import { appRole, ownerRole, urlFor, withClient } from '@countercheck/host/database';
import { replayFacts } from '@countercheck/assessment';
import type { Replay } from '@countercheck/contracts';
import { buildApp } from '../../apps/api/src/index.ts';
import { loadHouseFile } from '../../apps/api/src/features/assessment/index.ts';
import { system } from '../../apps/api/src/kernel/actor.ts';
import { demoSignIns } from '../../prisma/demo/index.ts';
import { signedIn, testConfig } from '../support/app.ts';
import { prepareDatabases } from '../support/prepare.ts';
import { loadManyHouses, roomyDatabase } from './many-houses.ts';

/**
 * How long a replay of each rule set over very many houses takes, from asking to the stored result, and beside
 * it what a house costs when its raw readings are measured again. Usage: tsx tests/bench/replay.ts [houses]
 */
const houses = Number(process.argv[2] ?? 100_000);
const pause = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));
const seconds = (since: number) => ((performance.now() - since) / 1000).toFixed(1);

const [databases, stop] = await prepareDatabases({ demo: true, settings: roomyDatabase });
try {
  if (!databases.demoTemplate) throw new Error(databases.demoProblem);
  const database = databases.demoTemplate;
  const { superuserUrl, ownerPassword, appPassword } = databases;
  const ownerUrl = urlFor(superuserUrl, { user: ownerRole, password: ownerPassword, database });
  const began = performance.now();
  const loaded = await loadManyHouses(urlFor(superuserUrl, { database }), houses);
  const [size] = await withClient(ownerUrl, async (client) => {
    const { rows } = await client.query<{ whole: string; mean: number }>(
      `SELECT pg_size_pretty(pg_total_relation_size('house_facts')) AS whole, avg(octet_length(facts))::int AS mean FROM house_facts`,
    );
    return rows;
  });
  console.log(
    `${loaded.houses} houses loaded in ${seconds(began)} s; facts ${size!.whole}, ${size!.mean} bytes a house`,
  );

  const appUrl = urlFor(superuserUrl, { user: appRole, password: appPassword, database });
  const app = await buildApp(testConfig(appUrl, { DATABASE_POOL: '4' }));
  await app.ready();

  const some = await app.database.as(system, (db) =>
    db.houseFacts.findMany({ take: 200, select: { houseId: true } }),
  );
  const raw = performance.now();
  await app.database.as(system, async (db) => {
    for (const { houseId } of some) replayFacts(await loadHouseFile(db, houseId));
  });
  console.log(`from raw readings: ${((performance.now() - raw) / some.length).toFixed(1)} ms a house`);

  const person = demoSignIns.find(({ role }) => role === 'Quality manager')!;
  const quality = await signedIn(app, person, person.password);
  const sets = (await quality.get('/rule-sets')).json<{ id: string; key: string; version: string }[]>();
  for (const set of sets) {
    const start = performance.now();
    const before = process.cpuUsage();
    const asked = (await quality.post('/replays', { ruleSetId: set.id, filter: {} })).json<Replay>();
    let seen = asked;
    while (seen.state === 'waiting' || seen.state === 'running') {
      await pause(100);
      seen = (await quality.get(`/replays/${asked.id}`)).json<Replay>();
    }
    if (seen.state !== 'done' || !seen.result) throw new Error(seen.problem ?? seen.state);
    const { user, system: kernel } = process.cpuUsage(before);
    const { affected, changed, more, fewer } = seen.result;
    console.log(
      `${set.key} ${set.version}: ${seen.done} houses in ${seconds(start)} s (${((user + kernel) / 1e6).toFixed(1)} s of computing, without the database); ${affected} affected, ${changed} verdicts, ${more} reinspections more, ${fewer} fewer`,
    );
  }
  await app.close();
} finally {
  await stop();
}
