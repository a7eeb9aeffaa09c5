import { performance } from 'node:perf_hooks';
import pg from 'pg';
import { ownerRole, urlFor, withClient } from '@countercheck/host/database';
import { verifyDatabase } from '@countercheck/host/event-log/verify';
import { eventContent } from '@countercheck/seal';
import { prepareDatabases } from '../support/prepare.ts';

/**
 * What the chain costs: transactions that log one event each, from several connections at once, with the chain and
 * with its trigger switched off, interleaved in one run; with commits that wait for the disk, as in a company, and
 * without. Then how quickly the log is checked. Usage: npm run bench events [transactions a round] [rounds]
 */
const transactions = Number(process.argv[2] ?? 1_000);
const rounds = Number(process.argv[3] ?? 5);
const writers = 8;

const event = {
  ...{ at: new Date('2026-05-04T12:00:00Z'), actorKind: 'rater', actorId: null, actorName: 'First Rater' },
  ...{ action: 'reading recorded', recordType: 'reading', recordId: 'r', houseId: null, before: null },
  after: { test: 'duct-leakage-total', raw: { values: { pressure: 25.1, fan: 61.5 }, rows: [] } },
  ...{ reason: null, requestId: null },
};
const insert = {
  name: 'log',
  text: `INSERT INTO events (at, actor_kind, actor_name, action, record_type, record_id, after, content)
    VALUES ($1, $2, $3, $4, $5, $6, $7, $8)`,
  values: [
    ...[event.at, event.actorKind, event.actorName, event.action, event.recordType, event.recordId],
    ...[JSON.stringify(event.after), eventContent(event)],
  ],
};

async function perSecond(pool: pg.Pool): Promise<number> {
  const begin = performance.now();
  let left = transactions;
  const write = async () => {
    const client = await pool.connect();
    while (left-- > 0) {
      await client.query('BEGIN');
      await client.query(insert);
      await client.query('COMMIT');
    }
    client.release();
  };
  await Promise.all(Array.from({ length: writers }, write));
  return (transactions / (performance.now() - begin)) * 1000;
}
const median = (list: number[]) => [...list].sort((a, b) => a - b)[Math.floor(list.length / 2)]!;

const [databases, stop] = await prepareDatabases({ demo: false });
try {
  const { superuserUrl, ownerPassword: password, template: database } = databases;
  const ownerUrl = urlFor(superuserUrl, { user: ownerRole, password, database });
  const pool = new pg.Pool({ connectionString: ownerUrl, max: writers });
  const asSuperuser = (sql: string) => withClient(superuserUrl, (client) => client.query(sql));
  console.log(`${writers} connections, one event a transaction, median of ${rounds} rounds, a second:`);
  for (const disk of ['on', 'off']) {
    for (const setting of ['fsync', 'synchronous_commit'])
      await asSuperuser(`ALTER SYSTEM SET ${setting} = ${disk}`);
    await asSuperuser('SELECT pg_reload_conf()');
    const [chained, plain]: [number[], number[]] = [[], []];
    for (let round = -1; round < rounds; round += 1)
      for (const [list, verb] of [
        [chained, 'ENABLE'],
        [plain, 'DISABLE'],
      ] as const) {
        await pool.query(`ALTER TABLE events ${verb} TRIGGER events_chained`);
        const rate = await perSecond(pool);
        if (round >= 0) list.push(rate);
      }
    const [with_, without] = [median(chained), median(plain)];
    console.log(
      `  commits ${disk === 'on' ? 'wait for the disk' : 'do not wait    '}  chained ${with_.toFixed(0).padStart(6)}   not chained ${without.toFixed(0).padStart(6)}   ratio ${(with_ / without).toFixed(2)}`,
    );
  }
  // What was written while the trigger was off has no place; without it the log has to be whole.
  await pool.query('ALTER TABLE events DISABLE TRIGGER events_append_only');
  await pool.query(
    'DELETE FROM events e WHERE NOT EXISTS (SELECT 1 FROM event_chain c WHERE c.event_id = e.id)',
  );
  await pool.end();
  const begin = performance.now();
  const { intact, report } = await verifyDatabase(ownerUrl, []);
  const rate = (report.good / (performance.now() - begin)) * 1000;
  console.log(
    `  checked again: ${report.good} records, ${rate.toFixed(0)} a second, ${intact ? 'intact' : 'NOT INTACT'}`,
  );
  if (!intact) process.exitCode = 1;
} finally {
  await stop();
}
