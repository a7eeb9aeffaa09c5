import { kaplanMeier, waitingQuantile, type WaitingStep } from '@countercheck/sampling';
import type { WaitingTimes } from '@countercheck/contracts';
import type { Db } from '../../../kernel/database/database.ts';
import { chosenItems, type BoardFilter } from './filter.ts';

const shares = [0.25, 0.5, 0.75, 0.9];

/** Whole days from the first failure until the item was closed or failed again; who still waits, until now. */
const daysWaited = (db: Db, filter: BoardFilter, timezone: string): Promise<WaitingStep[]> =>
  db.$queryRaw`
    WITH chosen AS (
      SELECT f.id, f.opened_at, f.closed_at FROM failed_items f JOIN houses h ON h.id = f.house_id
      WHERE ${chosenItems(filter, timezone)}
    ), again AS (
      SELECT c.id, min(e.at) AS at FROM chosen c JOIN failed_item_entries e ON e.failed_item_id = c.id
      WHERE e.kind IN ('closed', 'reopened') GROUP BY c.id
    ), waited AS (
      SELECT c.opened_at, coalesce(a.at, c.closed_at) AS at FROM chosen c LEFT JOIN again a ON a.id = c.id
    )
    SELECT greatest(0, floor(extract(epoch FROM coalesce(at, now()) - opened_at) / 86400))::int AS time,
      count(at)::int AS ended, count(*) FILTER (WHERE at IS NULL)::int AS censored
    FROM waited GROUP BY 1 ORDER BY 1`;

export async function timesWaited(db: Db, filter: BoardFilter, timezone: string): Promise<WaitingTimes> {
  const steps = await daysWaited(db, filter, timezone);
  const curve = kaplanMeier(steps);
  const count = (key: 'ended' | 'censored') => steps.reduce((sum, step) => sum + step[key], 0);
  const [lookedAtAgain, stillWaiting] = [count('ended'), count('censored')];
  return {
    items: lookedAtAgain + stillWaiting,
    ...{ lookedAtAgain, stillWaiting },
    quantiles: shares.map((share) => ({ share, days: waitingQuantile(curve, share) })),
    curve: curve.map(({ time, ended, ...step }) => ({ ...step, days: time, lookedAtAgain: ended })),
  };
}
