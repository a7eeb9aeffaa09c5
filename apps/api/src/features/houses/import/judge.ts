import type { FastifyBaseLogger } from 'fastify';
import { system } from '../../../kernel/actor.ts';
import type { Database, Db } from '../../../kernel/database/database.ts';
import type { RunWork } from '../../../kernel/runs/runner.ts';
import { assessFirst, reassess } from '../../assessment/index.ts';

const atOnce = 200;
/** Houses of one transaction: enough to spare most of the statements, few enough to keep nobody waiting for a lock. */
const together = 20;

/** Houses of an import that have no verdict yet, from a house on; what is judged is told by the houses alone. */
async function unjudged(db: Db, importId: string, after: string | null): Promise<string[]> {
  const rows = await db.$queryRaw<{ id: string }[]>`
    SELECT h.id FROM houses h
    WHERE h.import_id = ${importId}::uuid AND (${after}::uuid IS NULL OR h.id > ${after}::uuid)
      AND NOT EXISTS (SELECT 1 FROM item_results r WHERE r.house_id = h.id)
    ORDER BY h.id LIMIT ${atOnce}`;
  return rows.map(({ id }) => id);
}

async function countOf(db: Db, importId: string): Promise<{ all: number; left: number }> {
  const [row] = await db.$queryRaw<[{ all: number; left: number }]>`
    SELECT count(*)::int AS all, (count(*) FILTER (WHERE NOT EXISTS (
      SELECT 1 FROM item_results r WHERE r.house_id = h.id)))::int AS left
    FROM houses h WHERE h.import_id = ${importId}::uuid`;
  return row;
}

/** Computes the verdicts of one house, unless somebody else has meanwhile. */
async function judge(db: Db, houseId: string): Promise<void> {
  await db.$queryRaw`SELECT id FROM houses WHERE id = ${houseId}::uuid FOR UPDATE`;
  if (await db.itemResult.findFirst({ where: { houseId }, select: { id: true } })) return;
  await reassess(db, system, null, houseId);
}

/** As `judge`, for a few houses in one transaction; what a person has touched meanwhile is left to `judge`. */
async function judgeSome(db: Db, houseIds: readonly string[]): Promise<void> {
  await db.$queryRaw`SELECT id FROM houses WHERE id = ANY(${houseIds}::uuid[]) ORDER BY id FOR UPDATE`;
  if ((await assessFirst(db, system, houseIds)) === houseIds.length) return;
  for (const houseId of houseIds) await judge(db, houseId);
}

/**
 * Computes the verdicts of houses that came from a file, a few in a transaction, so that after a stop only what was
 * not done is done. Where a few cannot be judged together each is tried alone: a house that cannot be judged is named
 * at the end and keeps no other from it.
 */
export function judgeImported(database: Database, log: FastifyBaseLogger): RunWork {
  const as = <T>(work: (db: Db) => Promise<T>) => database.as(system, work);
  return {
    kind: 'import',
    resumes: true,
    async work(id, progress, signal) {
      const { all, left } = await as((db) => countOf(db, id));
      progress.total = all;
      progress.done = all - left;
      const failed: string[] = [];
      const eachAlone = async (ids: readonly string[]) => {
        const lost: string[] = [];
        for (const houseId of ids) {
          signal.throwIfAborted();
          try {
            await as((db) => judge(db, houseId));
            progress.done += 1;
          } catch (error) {
            log.error({ err: error, house: houseId }, 'a house from a file could not be judged');
            lost.push(houseId);
          }
        }
        return lost;
      };
      let last: string | null = null;
      for (;;) {
        const ids: string[] = await as((db) => unjudged(db, id, last));
        for (let from = 0; from < ids.length; from += together) {
          const some = ids.slice(from, from + together);
          signal.throwIfAborted();
          const done = await as((db) => judgeSome(db, some)).then(
            () => true,
            () => false,
          );
          if (done) progress.done += some.length;
          else failed.push(...(await eachAlone(some)));
        }
        last = ids.at(-1) ?? null;
        if (last === null) break;
      }
      if (failed.length > 0) throw new Error(await as((db) => failedWords(db, failed)));
      return async () => undefined;
    },
    clear: async () => undefined,
  };
}

async function failedWords(db: Db, failed: readonly string[]): Promise<string> {
  const named = await db.house.findMany({
    where: { id: { in: failed.slice(0, 5) } },
    select: { address: true },
    orderBy: { id: 'asc' },
  });
  const addresses = named.map(({ address }) => address).join(', ');
  return `${failed.length} could not be judged: ${addresses}${failed.length > named.length ? ' and others' : ''}. They are judged with their next change.`;
}
