import type { FastifyInstance } from 'fastify';
import { Readable } from 'node:stream';
import { routes } from '@countercheck/contracts';
import { logFormat, toHex, type Head } from '@countercheck/seal';
import type { UserActor } from '../../kernel/actor.ts';
import type { Database } from '../../kernel/database/database.ts';
import { implement } from '../../kernel/http/implement.ts';
import { readHead } from './head.ts';

const batch = 2_000;

interface Row {
  sequence: bigint;
  version: number;
  previous: Uint8Array;
  hash: Uint8Array;
  content: string;
}

/**
 * The log up to a head, line by line. Each batch is read by itself: what is chained does not change, so no
 * transaction has to stay open for as long as somebody's connection is slow.
 */
async function* linesUpTo(database: Database, actor: UserActor, head: Head): AsyncGenerator<string> {
  yield `${JSON.stringify({ format: logFormat, head })}\n`;
  for (let after = 0; after < head.sequence;) {
    const rows = await database.as(
      actor,
      (db) => db.$queryRaw<Row[]>`
        SELECT c.sequence, c.version, c.previous, c.hash, e.content
        FROM event_chain c JOIN events e ON e.id = c.event_id
        WHERE c.sequence > ${after} AND c.sequence <= ${head.sequence} ORDER BY c.sequence LIMIT ${batch}`,
    );
    yield rows
      .map(({ sequence, version, previous, hash, content }) => {
        const line = {
          sequence: Number(sequence),
          version,
          previous: toHex(previous),
          content,
          hash: toHex(hash),
        };
        return `${JSON.stringify(line)}\n`;
      })
      .join('');
    // Where records are gone the check of the file says so; the download still comes to its end.
    if (rows.length < batch) return;
    after = Number(rows.at(-1)!.sequence);
  }
}

export function exportLog(app: FastifyInstance): void {
  implement(app, routes.eventLog.records, async ({ actor, database, reply }) => {
    const head = await database.as(actor, readHead);
    return reply
      .type('application/x-ndjson')
      .header('content-disposition', `attachment; filename="event-log-${head.sequence}.jsonl"`)
      .header('cache-control', 'no-store')
      .send(Readable.from(linesUpTo(database, actor, head)));
  });
}
