import { Prisma } from '@countercheck/prisma';
import type { FailedGroup, failedGroupings } from '@countercheck/contracts';
import type { Db } from '../../../kernel/database/database.ts';
import { chosenItems, window, type BoardFilter } from './filter.ts';

type Grouping = (typeof failedGroupings)[number];

const keys: Record<Grouping, Prisma.Sql> = {
  item: Prisma.sql`f.item`,
  trade: Prisma.sql`f.trade`,
  builder: Prisma.sql`h.builder_id`,
  community: Prisma.sql`h.community_id`,
};
const labels: Record<Grouping, Prisma.Sql> = {
  item: Prisma.sql`r.title`,
  trade: Prisma.sql`r.key`,
  builder: Prisma.sql`(SELECT name FROM builders WHERE id = r.key::uuid)`,
  community: Prisma.sql`(SELECT name FROM communities WHERE id = r.key::uuid)`,
};

/** Grouped, ranked and added up by the database; the running share is over all groups, not over one page. */
export function groupFailed(
  db: Db,
  by: Grouping,
  filter: BoardFilter & { page: number; pageSize: number },
  timezone: string,
): Promise<(FailedGroup & { total: number })[]> {
  return db.$queryRaw`
    WITH chosen AS (
      SELECT ${keys[by]} AS key, f.title, f.times_failed, f.state <> 'closed' AS open,
        floor(extract(epoch FROM now() - f.opened_at) / 86400)::int AS age
      FROM failed_items f JOIN houses h ON h.id = f.house_id WHERE ${chosenItems(filter, timezone)}
    ), grouped AS (
      SELECT key::text AS key, max(title) AS title, count(*)::int AS failed, sum(times_failed)::int AS times,
        count(*) FILTER (WHERE open)::int AS open,
        count(*) FILTER (WHERE open AND age <= 7)::int AS "openWeek",
        count(*) FILTER (WHERE open AND age BETWEEN 8 AND 30)::int AS "openMonth",
        count(*) FILTER (WHERE open AND age BETWEEN 31 AND 90)::int AS "openQuarter",
        count(*) FILTER (WHERE open AND age > 90)::int AS "openLonger",
        max(age) FILTER (WHERE open) AS "oldestDays"
      FROM chosen GROUP BY chosen.key
    ), ranked AS (
      SELECT *, failed::float8 / sum(failed) OVER () AS share,
        sum(failed) OVER (ORDER BY failed DESC, key)::float8 / sum(failed) OVER () AS cumulative,
        row_number() OVER (ORDER BY failed DESC, key)::int AS rank, count(*) OVER ()::int AS total
      FROM grouped
    )
    SELECT r.rank, r.key, coalesce(${labels[by]}, r.key) AS label, r.failed, r.times, r.share, r.cumulative, r.open,
      r."openWeek", r."openMonth", r."openQuarter", r."openLonger", r."oldestDays", r.total
    FROM ranked r ORDER BY r.rank ${window(filter)}`;
}
