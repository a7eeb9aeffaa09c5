import { spawn } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import pg from 'pg';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { urlFor, withClient } from '@countercheck/host/database';
import { verifyDatabase, verifyFile } from '@countercheck/host/event-log/verify';
import { eventContent, toHex, type Head } from '@countercheck/seal';
import { system } from '../../apps/api/src/kernel/actor.ts';
import { openDatabase } from '../../apps/api/src/kernel/database/database.ts';
import { record } from '../../apps/api/src/kernel/records/events.ts';
import { applyMigrations } from '../../prisma/migrate/apply.ts';
import { readMigrations } from '../../prisma/migrate/files.ts';
import { databases } from '../support/context.ts';
import { freshDatabase, unmigratedDatabase, type FreshDatabase } from '../support/database.ts';

let base: FreshDatabase;
let head: Head;

/** Something to log with every kind of value. */
const entry = (n: number) => ({
  action: 'reading recorded' as const,
  recordType: 'reading',
  recordId: `r${n}`,
  after: { raw: { 'ü "quoted"': [0.1 * n, 1e-7, 1e21, -0], date: new Date(0), missing: undefined }, n },
  reason: n % 2 ? null : 'said\nso',
});

async function write(url: string, transactions: number, each = 1): Promise<void> {
  const database = openDatabase(url, 4, () => undefined);
  const one = (n: number) =>
    database.as(system, (db) =>
      record(db, system, null, ...Array.from({ length: each }, (_, i) => entry(n * 100 + i))),
    );
  await Promise.all(Array.from({ length: transactions }, (_, n) => one(n)));
  await database.close();
}

const headOf = (url: string): Promise<Head> =>
  withClient(url, async (client) => {
    const { rows } = await client.query<{ sequence: string; hash: Buffer }>(
      'SELECT sequence, hash FROM event_chain ORDER BY sequence DESC LIMIT 1',
    );
    const at = new Date().toISOString();
    const { sequence, hash } = rows[0]!;
    return { format: 'countercheck-log-head/1', sequence: Number(sequence), hash: toHex(hash), at };
  });

const superuser = (of: FreshDatabase) =>
  urlFor(databases().superuserUrl, { database: new URL(of.ownerUrl).pathname.slice(1) });

/** As somebody who owns the server and leaves no trigger in his way. */
const tamper = (of: FreshDatabase, sql: string) =>
  withClient(superuser(of), (client) => client.query(`SET session_replication_role = replica; ${sql}`));

beforeAll(async () => {
  base = await freshDatabase();
  await write(base.appUrl, 10, 2);
  head = await headOf(base.ownerUrl);
});
afterAll(() => base.drop());

/** A copy of the log to spoil. */
async function copy(): Promise<FreshDatabase> {
  const other = await freshDatabase();
  const tables = [
    [
      'events',
      'id, at, actor_kind, actor_id, actor_name, action, record_type, record_id, house_id, before, after, reason, request_id, content',
    ],
    ['event_chain', 'sequence, event_id, version, previous, hash'],
  ] as const;
  await withClient(superuser(base), async (from) =>
    withClient(superuser(other), async (to) => {
      await to.query('SET session_replication_role = replica');
      for (const [table, names] of tables) {
        const { rows } = await from.query<{ all: string }>(`SELECT json_agg(t)::text AS all FROM ${table} t`);
        await to.query(
          `INSERT INTO ${table} (${names}) SELECT ${names} FROM json_populate_recordset(NULL::${table}, $1::json)`,
          [rows[0]!.all],
        );
      }
    }),
  );
  return other;
}

describe('a log that somebody with all rights has changed', () => {
  it('is whole before', async () => {
    const { intact, report, words } = await verifyDatabase(base.appUrl, [head]);
    expect(words.join('\n')).toContain('20 records are as they were chained.');
    expect({ intact, good: report.good }).toEqual({ intact: true, good: 20 });
  });

  const at = (sequence: number) => `(SELECT event_id FROM event_chain WHERE sequence = ${sequence})`;
  it.each([
    ['an update of a column', 7, `UPDATE events SET actor_name = 'Somebody else' WHERE id = ${at(7)}`],
    [
      'an update of content and column',
      7,
      `UPDATE events SET reason = 'x', content = replace(content, '"reason":null', '"reason":"x"') || ' ' WHERE id = ${at(7)}`,
    ],
    [
      'a value inside the JSON',
      5,
      `UPDATE events SET after = jsonb_set(after, '{n}', '1000000') WHERE id = ${at(5)}`,
    ],
    ['a deleted event', 9, `DELETE FROM events WHERE id = ${at(9)}`],
    [
      'an event deleted with its place',
      9,
      `DELETE FROM events WHERE id = ${at(9)}; DELETE FROM event_chain WHERE sequence = 9`,
    ],
    [
      'two that changed places',
      4,
      `UPDATE event_chain SET sequence = 9 - sequence + 1000 WHERE sequence IN (4, 5); UPDATE event_chain SET sequence = sequence - 1000 WHERE sequence > 1000`,
    ],
    [
      'one put between, the later ones moved on',
      12,
      `UPDATE event_chain SET sequence = -sequence - 1 WHERE sequence >= 12; UPDATE event_chain SET sequence = -sequence WHERE sequence < 0;
      INSERT INTO event_chain SELECT 12, (SELECT max(id) + 1 FROM events), 1, previous, hash FROM event_chain WHERE sequence = 13;
      INSERT INTO events SELECT (SELECT max(id) + 1 FROM events), at, actor_kind, actor_id, 'Invented', action, record_type, record_id, house_id, before, after, reason, request_id, content FROM events WHERE id = ${at(3)}`,
    ],
    [
      'a hash worked out anew for one record',
      16,
      `UPDATE events SET content = replace(content, 'reading recorded', 'reading superseded'), action = 'reading superseded' WHERE id = ${at(15)};
      UPDATE event_chain c SET hash = sha256(convert_to('countercheck-event-chain/1', 'UTF8') || '\\x00'::bytea || previous || int8send(sequence) || sha256(convert_to((SELECT content FROM events WHERE id = c.event_id), 'UTF8'))) WHERE sequence = 15`,
    ],
  ])('%s is found at record %i', async (_what, sequence, sql) => {
    const spoiled = await copy();
    await tamper(spoiled, sql);
    const { intact, report } = await verifyDatabase(spoiled.ownerUrl, []);
    expect({ intact, broken: report.broken?.sequence }).toEqual({ intact: false, broken: sequence });
    await spoiled.drop();
  });

  it('an event without a place is named', async () => {
    const spoiled = await copy();
    await tamper(
      spoiled,
      `INSERT INTO events SELECT 5000, at, actor_kind, actor_id, actor_name, 'file released', record_type, record_id, house_id, before, after, reason, request_id, content FROM events LIMIT 1`,
    );
    const { intact, words } = await verifyDatabase(spoiled.ownerUrl, []);
    expect(intact).toBe(false);
    expect(words.join('\n')).toContain('first event 5000 (“file released”');
    await spoiled.drop();
  });

  it('a cut tail is found by a head kept elsewhere, and by nothing else', async () => {
    const spoiled = await copy();
    await tamper(
      spoiled,
      `DELETE FROM events WHERE id IN (SELECT event_id FROM event_chain WHERE sequence > 17); DELETE FROM event_chain WHERE sequence > 17`,
    );
    expect((await verifyDatabase(spoiled.ownerUrl, [])).intact).toBe(true);
    const { intact, words } = await verifyDatabase(spoiled.ownerUrl, [head]);
    expect(intact).toBe(false);
    expect(words.join('\n')).toContain('the log ends at record 17; records 18 to 20 are missing');
    await spoiled.drop();
  });
});

it('two processes writing at once make one chain without gaps, in the order of each transaction', async () => {
  const database = await freshDatabase();
  const writer = `
    import { openDatabase } from './apps/api/src/kernel/database/database.ts';
    import { record } from './apps/api/src/kernel/records/events.ts';
    const system = { kind: 'system', name: process.argv[1] };
    const database = openDatabase(process.env.DATABASE_URL, 6, () => undefined);
    const entry = (n, i) => ({ action: 'stage changed', recordType: 'house', recordId: n + '/' + i });
    await Promise.all(Array.from({ length: 4 }, async (_, writer) => {
      for (let turn = 0; turn < 6; turn += 1) await database.as(system, async (db) => {
        const n = writer * 6 + turn;
        await record(db, system, null, entry(n, 0), entry(n, 1));
        await record(db, system, null, entry(n, 2));
      });
    }));
    await database.close();
    process.exit();`;
  const run = (name: string) =>
    new Promise<number | null>((resolve, reject) => {
      const child = spawn(process.execPath, ['--import', 'tsx', '--input-type=module', '-e', writer, name], {
        stdio: ['ignore', 'inherit', 'inherit'],
        env: { ...process.env, DATABASE_URL: database.appUrl },
      });
      child.on('error', reject);
      child.on('exit', resolve);
    });
  expect(await Promise.all([run('one'), run('two')])).toEqual([0, 0]);
  const { intact, report } = await verifyDatabase(database.ownerUrl, []);
  expect({ intact, good: report.good }).toEqual({ intact: true, good: 144 });
  const together = await withClient(database.ownerUrl, async (client) => {
    const { rows } = await client.query<{ key: string }>(
      `SELECT actor_name || ' ' || record_id AS key FROM event_chain c JOIN events e ON e.id = c.event_id ORDER BY sequence`,
    );
    return rows.map(({ key }) => key);
  });
  for (let i = 0; i < together.length; i += 3) {
    const first = together[i]!;
    expect(first.endsWith('/0')).toBe(true);
    expect(together.slice(i, i + 3)).toEqual([0, 1, 2].map((n) => first.replace(/0$/, String(n))));
  }
  await database.drop();
});

describe('what the database itself refuses', () => {
  const refusal = (url: string, sql: string, values: unknown[] = []) =>
    withClient(url, async (client) => {
      await client.query(`SELECT set_config('app.scope', 'system', false)`);
      return client.query(sql, values);
    }).then(
      () => 'done',
      (error: pg.DatabaseError) => error.code,
    );

  it('a content that is not what the columns say, and an event without one', async () => {
    const columns = `INSERT INTO events (at, actor_kind, actor_name, action, record_type, record_id, content)`;
    const event = {
      ...{ at: new Date('2026-05-04T12:00:00.120Z'), actorKind: 'system', actorId: null, actorName: 'x' },
      ...{ action: 'x', recordType: 'x', recordId: 'x', houseId: null, before: null, after: null },
      ...{ reason: null, requestId: null },
    };
    const values = `VALUES ('2026-05-04T12:00:00.12Z', 'system', 'x', 'x', 'x', $1, $2)`;
    const spare = await copy();
    expect(await refusal(spare.appUrl, `${columns} ${values}`, ['y', eventContent(event)])).toBe('23514');
    expect(await refusal(spare.appUrl, `${columns} ${values}`, ['x', '{}'])).toBe('23514');
    expect(await refusal(spare.appUrl, `${columns} ${values}`, ['x', null])).not.toBe('done');
    await tamper(spare, `SELECT setval('events_id_seq', 1000)`);
    expect(await refusal(spare.appUrl, `${columns} ${values}`, ['x', eventContent(event)])).toBe('done');
    expect((await verifyDatabase(spare.ownerUrl, [])).report.good).toBe(21);
    await spare.drop();
  });

  it('a place in the chain that the service writes itself', async () => {
    const own = `INSERT INTO event_chain (sequence, event_id, previous, hash) VALUES (21, 1, '', '')`;
    expect(await refusal(base.appUrl, own)).toBe('42501');
    expect(await refusal(base.appUrl, 'UPDATE event_chain SET hash = hash')).toBe('42501');
    expect(await refusal(base.appUrl, 'DELETE FROM event_chain')).toBe('42501');
    expect(await refusal(base.appUrl, 'TRUNCATE event_chain')).toBe('42501');
  });

  it('a transaction that cannot see the newest record: it begins again', async () => {
    const one = new pg.Client({ connectionString: base.appUrl });
    await one.connect();
    await one.query('BEGIN ISOLATION LEVEL REPEATABLE READ');
    await one.query(`SELECT set_config('app.scope', 'system', true)`);
    await write(base.appUrl, 1);
    const event = {
      ...{ at: new Date(), actorKind: 'system', actorId: null, actorName: 'x', action: 'x', recordType: 'x' },
      ...{ recordId: 'x', houseId: null, before: null, after: null, reason: null, requestId: null },
    };
    await one.query(
      `INSERT INTO events (at, actor_kind, actor_name, action, record_type, record_id, content) VALUES ($1, 'system', 'x', 'x', 'x', 'x', $2)`,
      [event.at, eventContent(event)],
    );
    await expect(one.query('COMMIT')).rejects.toMatchObject({ code: '40001' });
    await one.end();
    expect((await verifyDatabase(base.ownerUrl, [])).intact).toBe(true);
  });
});

it('chains what was logged before there was a chain, word for word as the service would have', async () => {
  const database = await unmigratedDatabase();
  const all = readMigrations();
  const before = all.migrationDirectories.filter(({ path }) => path < '20261125195920');
  await applyMigrations(database.ownerUrl, { ...all, migrationDirectories: before });
  const values = [0, -0.5, 1e21, 1.5e300, 5e-324, 1e-7, 123456789012345680000, 0.000001, 4.35, 1e6, -12.75];
  const texts = ['', 'ä\u2028\u007f\u0001"\\/', '\ud83d\ude00', 'a\tb\nc'];
  await withClient(database.ownerUrl, async (client) => {
    for (const after of [
      { values, z: { b: null, a: [true, false, {}] }, A: [] },
      { texts, [texts[1]!]: 1 },
      null,
      7,
    ])
      await client.query(
        `INSERT INTO events (at, actor_kind, actor_name, action, record_type, record_id, after, reason)
         VALUES ('2026-05-04T12:00:00.007Z', 'system', 'Ünser', 'x', 'x', 'x', $1, $2)`,
        [after === null ? null : JSON.stringify(after), texts[1]],
      );
  });
  await applyMigrations(database.ownerUrl, all);
  const { intact, report, words } = await verifyDatabase(database.ownerUrl, []);
  expect(words[0]).toBe('4 records are as they were chained.');
  expect({ intact, good: report.good }).toEqual({ intact: true, good: 4 });
  await write(database.appUrl, 2);
  expect((await verifyDatabase(database.ownerUrl, [])).report.good).toBe(6);
  await database.drop();
});

it('is checked by a command that ends with what it found', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'countercheck-log-'));
  const kept = join(folder, 'head.json');
  writeFileSync(kept, JSON.stringify(head));
  const beyond = join(folder, 'beyond.json');
  writeFileSync(beyond, JSON.stringify({ ...head, sequence: 900 }));
  const run = (...given: string[]) =>
    new Promise<{ code: number | null; said: string }>((resolve, reject) => {
      const child = spawn(
        process.execPath,
        ['--import', 'tsx', 'apps/host/src/commands/verify-log.ts', ...given],
        { env: { ...process.env, DATABASE_URL: base.ownerUrl } },
      );
      let said = '';
      child.stdout.on('data', (part: Buffer) => (said += part.toString()));
      child.stderr.on('data', (part: Buffer) => (said += part.toString()));
      child.on('error', reject);
      child.on('exit', (code) => resolve({ code, said }));
    });
  const [good, bad, none] = await Promise.all([
    run('--head', kept),
    run('--head', beyond),
    run('--head', 'nowhere'),
  ]);
  expect(good).toMatchObject({ code: 0, said: expect.stringContaining('Holds: the head of') as string });
  expect(bad).toMatchObject({ code: 1, said: expect.stringContaining('to 900 are missing') as string });
  expect(none).toMatchObject({ code: 2, said: expect.stringContaining('could not be checked') as string });
  await expect(verifyFile(kept, [])).rejects.toThrow('Line 1');
});
