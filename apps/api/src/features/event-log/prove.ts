import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import { releasedRecord, toHex, type Head, type Proof } from '@countercheck/seal';
import { asSystem } from '../../kernel/database/as-system.ts';
import type { Db } from '../../kernel/database/database.ts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { AppError, found } from '../../kernel/problems/app-error.ts';
import { resultText } from '../review/index.ts';
import { readHead } from './head.ts';

/** A longer way than this (64 hexadecimal digits a record) is not sent; the proof then ends at its own record. */
const longestPath = 20_000;

interface Row {
  sequence: bigint;
  version: number;
  previous: Uint8Array;
  hash: Uint8Array;
  content: string;
}

async function recordOf(db: Db, releaseId: string): Promise<Proof['record']> {
  const [row] = await db.$queryRaw<Row[]>`
    SELECT c.sequence, c.version, c.previous, c.hash, e.content
    FROM events e JOIN event_chain c ON c.event_id = e.id
    WHERE e.record_type = 'release' AND e.record_id = ${releaseId} AND e.action = 'file released'
    ORDER BY c.sequence LIMIT 1`;
  const { sequence, version, previous, hash, content } = found(
    row,
    'record of this release in the event log',
  );
  return { sequence: Number(sequence), version, previous: toHex(previous), content, hash: toHex(hash) };
}

/** The first head recorded after the release, since that is what others were sent; before there is one, the newest. */
async function headAfter(db: Db, sequence: number): Promise<Head> {
  const recorded = await db.logHead.findFirst({
    where: { sequence: { gte: sequence } },
    orderBy: { sequence: 'asc' },
  });
  if (!recorded) return readHead(db);
  const { hash, readAt } = recorded;
  return {
    format: 'countercheck-log-head/1',
    ...{ sequence: Number(recorded.sequence), hash, at: readAt.toISOString() },
  };
}

const pathTo = async (db: Db, from: number, to: number): Promise<Proof['path']> => {
  const rows = await db.$queryRaw<{ version: number; contentHash: Uint8Array }[]>`
    SELECT c.version, sha256(convert_to(e.content, 'UTF8')) AS "contentHash"
    FROM event_chain c JOIN events e ON e.id = c.event_id
    WHERE c.sequence > ${from} AND c.sequence <= ${to} ORDER BY c.sequence`;
  return rows.map(({ version, contentHash }) => ({ version, contentHash: toHex(contentHash) }));
};

export function proveReleases(app: FastifyInstance): void {
  implementInTransaction(app, routes.eventLog.proof, async ({ db, actor, params }) => {
    // Row-level security decides whose release it is; beyond it only what belongs to that release is told.
    const release = found(await db.release.findUnique({ where: params }), 'release');
    return asSystem(db, actor, async () => {
      const record = await recordOf(db, release.id);
      const withResult = releasedRecord(record.content)?.after.resultHash !== undefined;
      if (actor.role === 'builder' && !withResult)
        throw new AppError(
          'not-found',
          'When this file was released no proof was made for builders; ask the company to check it.',
        );
      const later = await headAfter(db, record.sequence);
      const near = later.sequence - record.sequence <= longestPath;
      const head = near ? later : { ...later, sequence: record.sequence, hash: record.hash };
      return {
        format: 'countercheck-release-proof/1',
        release: { id: release.id, revision: release.revision, hash: release.hash },
        record,
        path: await pathTo(db, record.sequence, head.sequence),
        head,
        result: withResult ? resultText(release.content) : null,
      };
    });
  });
}
