import { parentPort, workerData } from 'node:worker_threads';
import pg from 'pg';
import type { ReplayFacts } from '@countercheck/assessment';
import { compileDecisions, type CompiledSet, type Facts, type RuleSet } from '@countercheck/rules';
import { compareHouse, type Change } from './compare.ts';
import { countHouse, emptyTally, reinspectionsOf } from './tally.ts';

export interface WorkerTask {
  databaseUrl: string;
  replayId: string;
  /** the version to apply */
  ruleSetId: string;
  /** every set that one of the houses is judged by, and the one to apply */
  sets: Record<string, RuleSet>;
}

interface Row {
  house_id: string;
  facts: string;
  first_facts: string | null;
  rule_set_id: string;
  builder_id: string;
  rater_id: string | null;
}

interface Affected {
  houseId: string;
  raterId: string | null;
  reinspection: number;
  changes: Change[];
}

const task = workerData as WorkerTask;
const port = parentPort!;
const compiled = new Map<string, CompiledSet>();
const tally = emptyTally();
const client = new pg.Client({ connectionString: task.databaseUrl, application_name: 'countercheck replay' });

function setOf(id: string): CompiledSet {
  const known = compiled.get(id) ?? compileDecisions(task.sets[id]!);
  compiled.set(id, known);
  return known;
}

const read = {
  name: 'facts',
  text: `SELECT f.house_id, f.facts, f.first_facts, h.rule_set_id, h.builder_id,
      (SELECT v.rater_id FROM visits v WHERE v.house_id = h.id AND v.state IN ('in_progress', 'submitted')
       ORDER BY v.starts_at DESC LIMIT 1) AS rater_id
    FROM houses h JOIN house_facts f ON f.house_id = h.id WHERE h.id = ANY($1::uuid[])`,
};
const keep = {
  name: 'affected',
  text: `INSERT INTO replay_houses (replay_id, house_id, rater_id, reinspection, changes)
    SELECT $1, house, rater, difference, changes
    FROM unnest($2::uuid[], $3::uuid[], $4::int[], $5::jsonb[]) AS t (house, rater, difference, changes)`,
};

function factsOf(row: Row): ReplayFacts | null {
  try {
    const now = JSON.parse(row.facts) as Facts;
    return { now, first: row.first_facts === null ? null : (JSON.parse(row.first_facts) as Facts) };
  } catch {
    return null;
  }
}

function look(row: Row): Affected | null {
  const facts = factsOf(row);
  if (!facts) {
    tally.unreadable += 1;
    return null;
  }
  const compared = compareHouse(facts, setOf(row.rule_set_id), setOf(task.ruleSetId));
  countHouse(tally, compared, row.builder_id, row.rater_id);
  const reinspection = reinspectionsOf(compared);
  if (compared.changes.length === 0 && reinspection === 0) return null;
  return { houseId: row.house_id, raterId: row.rater_id, reinspection, changes: compared.changes };
}

async function lookAt(ids: string[]): Promise<void> {
  const { rows } = await client.query<Row>({ ...read, values: [ids] });
  const affected = rows.flatMap((row) => look(row) ?? []);
  if (affected.length === 0) return;
  const columns = [
    affected.map((each) => each.houseId),
    affected.map((each) => each.raterId),
    affected.map((each) => each.reinspection),
    affected.map((each) => JSON.stringify(each.changes)),
  ];
  await client.query({ ...keep, values: [task.replayId, ...columns] });
}

await client.connect();
await client.query(`SELECT set_config('app.scope', 'system', false)`);
async function answer(ids: string[] | null): Promise<void> {
  if (ids !== null) {
    await lookAt(ids);
    port.postMessage({ done: ids.length });
    return;
  }
  await client.end();
  port.postMessage({ tally });
  port.close();
}

// One list of houses at a time: the next one is asked for when this one is through. What goes wrong ends the
// thread, and with it the replay.
port.on('message', (ids: string[] | null) => void answer(ids));
port.postMessage({ done: 0 });
