import { performance } from 'node:perf_hooks';
import { replayFilterSchema, type ReplayResult } from '@countercheck/contracts';
import type { RuleSet } from '@countercheck/rules';
import { system } from '../../kernel/actor.ts';
import type { Database, Db } from '../../kernel/database/database.ts';
import { record } from '../../kernel/records/events.ts';
import type { Progress, RunWork } from '../../kernel/runs/runner.ts';
import { companyOptions, countWithoutFacts, fillFacts, housesWithoutFacts } from '../assessment/index.ts';
import { housesOf } from './select-houses.ts';
import type { Counted, Tally } from './tally.ts';
import { lookAtHouses } from './workers.ts';

const filledAtOnce = 25;

/** Facts that are missing, as after a migration, are worked out first; they stay for the next replay. */
export async function fillMissingFacts(
  database: Database,
  signal: AbortSignal,
  onFilled: (houses: number) => void,
): Promise<void> {
  for (;;) {
    const ids = await database.as(system, (db) => housesWithoutFacts(db, filledAtOnce));
    if (ids.length === 0) return;
    signal.throwIfAborted();
    await database.as(system, (db) => fillFacts(db, ids));
    onFilled(ids.length);
  }
}

async function setsOf(db: Db): Promise<Record<string, RuleSet>> {
  const rows = await db.ruleSet.findMany({ select: { id: true, body: true } });
  return Object.fromEntries(rows.map(({ id, body }) => [id, body as unknown as RuleSet]));
}

async function named(db: Db, counted: Map<string, Counted>, kind: 'builder' | 'user') {
  const ids = [...counted.keys()].filter((id) => id !== '');
  const where = { id: { in: ids } };
  const select = { id: true, name: true };
  const rows =
    kind === 'builder'
      ? await db.builder.findMany({ where, select })
      : await db.user.findMany({ where, select });
  const names = new Map(rows.map(({ id, name }) => [id, name]));
  return [...counted]
    .map(([id, each]) => ({ id: id || null, name: names.get(id) ?? 'No visit yet', ...each }))
    .sort(
      (a, b) => b.more + b.fewer - a.more - a.fewer || b.changed - a.changed || a.name.localeCompare(b.name),
    );
}

async function resultOf(db: Db, tally: Tally, milliseconds: number): Promise<ReplayResult> {
  const { items, builders, raters, ...counts } = tally;
  return {
    ...counts,
    items: [...items.values()].sort((a, b) => b.count - a.count || a.item.localeCompare(b.item)),
    builders: await named(db, builders, 'builder'),
    raters: await named(db, raters, 'user'),
    milliseconds: Math.round(milliseconds),
  };
}

/** What a replay does in the background. Nothing of a house is written, only what was found. */
export function replayWork(database: Database, databaseUrl: string): RunWork {
  return {
    kind: 'replay',
    async work(id, progress: Progress, signal) {
      const began = performance.now();
      const { row, houses, sets } = await database.as(system, async (db) => {
        const row = await db.replay.findUniqueOrThrow({ where: { id } });
        const { timezone } = await companyOptions(db);
        const houses = await housesOf(db, replayFilterSchema.parse(row.filter), timezone);
        return { row, houses, sets: await setsOf(db) };
      });
      // Where facts are missing they are part of the work that is seen to advance.
      const missing = await database.as(system, countWithoutFacts);
      progress.total = missing + houses.length;
      const onDone = (done: number) => (progress.done += done);
      await fillMissingFacts(database, signal, onDone);
      const task = { databaseUrl, replayId: id, ruleSetId: row.ruleSetId, sets };
      const tally = await lookAtHouses(task, houses, onDone, signal);
      return async (db) => {
        const result = await resultOf(db, tally, performance.now() - began);
        await db.replay.update({ where: { id }, data: { result } });
        const { houses, affected, more, fewer } = result;
        await record(db, system, null, {
          action: 'replay ended',
          recordType: 'replay',
          recordId: id,
          after: { houses, affected, more, fewer },
        });
      };
    },
    async clear(db, id) {
      await db.replayHouse.deleteMany({ where: { replayId: id } });
    },
  };
}
