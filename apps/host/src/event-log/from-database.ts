import type pg from 'pg';
import { eventContent, type ChainRecord, type EventFields } from '@countercheck/seal';

const batch = 5_000;

interface Row {
  sequence: string;
  version: number;
  previous: Buffer;
  hash: Buffer;
  content: string | null;
  columns: Omit<EventFields, 'at'> & { at: Date };
}

const columns = `e.at, e.actor_kind AS "actorKind", e.actor_id AS "actorId", e.actor_name AS "actorName", e.action,
  e.record_type AS "recordType", e.record_id AS "recordId", e.house_id AS "houseId", e.before, e.after, e.reason,
  e.request_id AS "requestId"`;

/** Everything of the log is there for whoever runs this, also signed in as the role of the service. */
export async function seeAsService(client: pg.Client): Promise<void> {
  await client.query(`SELECT set_config('app.scope', 'system', false)`);
  // One moment for the whole reading, while the service goes on writing.
  await client.query('BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY');
}

/** The chain with its events, in order, some thousand at a time. */
export async function* chainOf(client: pg.Client): AsyncGenerator<ChainRecord> {
  let after = '-9223372036854775808';
  for (;;) {
    const { rows } = await client.query<Omit<Row, 'columns'> & Row['columns']>(
      `SELECT c.sequence, c.version, c.previous, c.hash, e.content, ${columns}
       FROM event_chain c LEFT JOIN events e ON e.id = c.event_id WHERE c.sequence > $1 ORDER BY c.sequence LIMIT ${batch}`,
      [after],
    );
    for (const { sequence, version, previous, hash, content, ...event } of rows)
      yield {
        ...{ sequence: Number(sequence), version, previous, hash },
        ...(content === null ? { content: undefined } : { content, columns: eventContent(event) }),
      };
    if (rows.length < batch) return;
    after = rows.at(-1)!.sequence;
  }
}

/** Events that never got a place in the chain: put into the table past the service. The first of them, and how many. */
export async function strangers(
  client: pg.Client,
): Promise<{ count: number; first: { id: string; at: Date; action: string } } | undefined> {
  const { rows } = await client.query<{ count: string; id: string; at: Date; action: string }>(
    `SELECT count(*) OVER () AS count, e.id, e.at, e.action FROM events e
     WHERE NOT EXISTS (SELECT 1 FROM event_chain c WHERE c.event_id = e.id) ORDER BY e.id LIMIT 1`,
  );
  const [row] = rows;
  return row && { count: Number(row.count), first: { id: row.id, at: row.at, action: row.action } };
}
