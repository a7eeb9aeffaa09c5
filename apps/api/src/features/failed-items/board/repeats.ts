import { Prisma } from '@countercheck/prisma';
import type { Db } from '../../../kernel/database/database.ts';
import { chosenItems, onDays, window, type BoardFilter } from './filter.ts';

export interface RepeatRow {
  builderId: string;
  builder: string;
  planId: string | null;
  plan: string | null;
  item: string;
  title: string;
  houses: number;
  ofHouses: number;
  times: number;
  lastAt: Date;
  total: number;
}

/** The same item failing in at least two houses of one builder's plan, beside how many of them were visited. */
export function findRepeats(
  db: Db,
  filter: BoardFilter & { page: number; pageSize: number },
  timezone: string,
): Promise<RepeatRow[]> {
  return db.$queryRaw`
    WITH failing AS (
      SELECT h.builder_id, h.plan_id, f.item, max(f.title) AS title, count(DISTINCT f.house_id)::int AS houses,
        sum(f.times_failed)::int AS times, max(f.opened_at) AS last_at
      FROM failed_items f JOIN houses h ON h.id = f.house_id WHERE ${chosenItems(filter, timezone)}
      GROUP BY 1, 2, 3 HAVING count(DISTINCT f.house_id) > 1
    ), page AS (
      SELECT *, count(*) OVER ()::int AS total FROM failing
      ORDER BY houses DESC, times DESC, builder_id, plan_id, item ${window(filter)}
    ), visited AS (
      SELECT h.builder_id, h.plan_id, count(*)::int AS houses FROM houses h
      WHERE h.builder_id IN (SELECT builder_id FROM page) AND h.id IN (
        SELECT v.house_id FROM visits v WHERE v.state = 'submitted' AND ${onDays(Prisma.sql`v.submitted_at`, filter, timezone)})
      GROUP BY 1, 2
    )
    SELECT p.builder_id AS "builderId", b.name AS builder, p.plan_id AS "planId", pl.name AS plan, p.item, p.title,
      p.houses, greatest(p.houses, coalesce(v.houses, 0)) AS "ofHouses", p.times, p.last_at AS "lastAt", p.total
    FROM page p JOIN builders b ON b.id = p.builder_id LEFT JOIN plans pl ON pl.id = p.plan_id
    LEFT JOIN visited v ON v.builder_id = p.builder_id AND v.plan_id IS NOT DISTINCT FROM p.plan_id
    ORDER BY p.houses DESC, p.times DESC, p.builder_id, p.plan_id, p.item`;
}
