import { faults } from '@countercheck/planning';
import type { Prisma } from '@countercheck/prisma';
import { system } from '../../kernel/actor.ts';
import type { Database } from '../../kernel/database/database.ts';
import { record } from '../../kernel/records/events.ts';
import type { RunWork } from '../../kernel/runs/runner.ts';
import { companyOptions } from '../assessment/index.ts';
import { build } from './problem/build.ts';
import { planClock } from './problem/clock.ts';
import { load } from './problem/load.ts';
import { resultOf, storeVisits } from './store.ts';
import { planInThread } from './thread.ts';
import { travelBetween } from './travel.ts';

const steps = 100;

/** What planning does in the background. No visit is touched, only what was found is stored. */
export function planWork(database: Database): RunWork {
  return {
    kind: 'plan',
    async work(id, progress, signal) {
      progress.total = steps;
      const now = new Date();
      const { asked, clock, loaded } = await database.as(system, async (db) => {
        const row = await db.weekPlan.findUniqueOrThrow({ where: { id } });
        const { timezone } = await companyOptions(db);
        const clock = planClock(row.fromOn, row.toOn, timezone);
        const asked = { ...row, requestIds: row.requestIds as string[] | null };
        return { asked, clock, loaded: await load(db, asked, clock) };
      });
      const built = build(loaded, { ...asked, now }, clock);
      const { table, source } = await travelBetween(built.places, loaded.company, signal);
      const problem = { ...built.problem, travel: table };
      const found = await planInThread(
        { problem, milliseconds: asked.seconds * 1000 },
        (part) => (progress.done = Math.min(steps - 1, Math.floor(part * steps))),
        signal,
      );
      // Other code than the search's looks at the plan before anybody sees it.
      const wrong = faults(problem, found.plan);
      if (wrong.length > 0) throw new Error(`The plan does not hold: ${wrong.join('; ')}`);
      progress.done = steps;
      return async (db) => {
        const result = resultOf(built, clock, { ...found, travel: source });
        await db.weekPlan.update({
          where: { id },
          data: { result: result as unknown as Prisma.InputJsonObject },
        });
        const counted = await storeVisits(db, id, built, clock, found.plan);
        await record(db, system, null, {
          action: 'week plan ended',
          recordType: 'week plan',
          recordId: id,
          after: { ...counted, unplaced: result.unplaced.length },
        });
      };
    },
    async clear(db, id) {
      await db.plannedVisit.deleteMany({ where: { planId: id } });
    },
  };
}
