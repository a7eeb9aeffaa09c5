import { genesis, toHex, type Head } from '@countercheck/seal';
import type { Db } from '../../kernel/database/database.ts';

/** The newest record of the chain, now. */
export async function readHead(db: Db): Promise<Head> {
  const newest = await db.eventPlace.findFirst({ orderBy: { sequence: 'desc' } });
  return {
    format: 'countercheck-log-head/1',
    sequence: Number(newest?.sequence ?? 0),
    hash: toHex(newest?.hash ?? genesis()),
    at: new Date().toISOString(),
  };
}
