import { Prisma } from '@countercheck/prisma';
import type { firstTimeGroupings } from '@countercheck/contracts';
import type { Db } from '../../../kernel/database/database.ts';
import { onDays, window, type BoardFilter } from './filter.ts';

type Grouping = (typeof firstTimeGroupings)[number];

const keys: Record<Grouping, Prisma.Sql> = {
  builder: Prisma.sql`h.builder_id`,
  rater: Prisma.sql`v.rater_id`,
  installer: Prisma.sql`s.installer_id`,
  item: Prisma.sql`NULL::uuid`,
};
const labels: Record<Grouping, Prisma.Sql> = {
  builder: Prisma.sql`(SELECT name FROM builders WHERE id = g.key::uuid)`,
  rater: Prisma.sql`(SELECT name FROM users WHERE id = g.key::uuid)`,
  installer: Prisma.sql`(SELECT name || ', ' || company_name FROM installers WHERE id = g.key::uuid)`,
  item: Prisma.sql`(SELECT each ->> 'title' FROM rule_sets, jsonb_array_elements(body -> 'items') AS each
    WHERE each ->> 'item' = g.key ORDER BY effective_on DESC LIMIT 1)`,
};
const nothing = Prisma.empty;

export interface FirstTimeCount {
  key: string;
  label: string;
  decided: number;
  passed: number;
  total: number;
}

/**
 * Items that were decided in houses whose first final visit (or first rough visit, where there was no other) was
 * submitted on the days asked about, and how many of them never failed. An item counts once for each part it
 * applies to. The installer is the one who signed last.
 */
export function countFirstTime(
  db: Db,
  by: Grouping,
  filter: BoardFilter & { page: number; pageSize: number },
  timezone: string,
): Promise<FirstTimeCount[]> {
  const { builderId, item, trade } = filter;
  const byItem = by === 'item';
  const chosenOf = (each: Prisma.Sql) => Prisma.sql`
    ${item === undefined ? nothing : Prisma.sql`AND ${each} = ${item}`}
    ${trade === undefined ? nothing : Prisma.sql`AND ${each} IN (SELECT item FROM failed_items WHERE trade = ${trade})`}`;
  const column = (each: Prisma.Sql) => (byItem ? Prisma.sql`${each} AS item,` : nothing);
  const grouped = (each: Prisma.Sql) => (byItem ? Prisma.sql`GROUP BY ${each}` : nothing);
  const [of, again] = [Prisma.sql`r.item`, Prisma.sql`f.item`];
  // Counted house by house, each by an index alone: what failed once is few and taken off again.
  return db.$queryRaw`
    WITH first_visit AS (
      SELECT DISTINCT ON (house_id) house_id, rater_id, submitted_at FROM visits
      WHERE state = 'submitted' AND kind IN ('final', 'rough')
      ORDER BY house_id, (kind = 'final') DESC, starts_at
    ), chosen AS MATERIALIZED (
      SELECT v.house_id, ${keys[by]} AS key FROM first_visit v
      ${by === 'builder' || builderId !== undefined ? Prisma.sql`JOIN houses h ON h.id = v.house_id` : nothing}
      ${by === 'installer' ? Prisma.sql`JOIN LATERAL (SELECT installer_id FROM installer_submissions WHERE house_id = v.house_id ORDER BY revision DESC LIMIT 1) s ON TRUE` : nothing}
      WHERE ${onDays(Prisma.sql`v.submitted_at`, filter, timezone)}
      ${builderId === undefined ? nothing : Prisma.sql`AND h.builder_id = ${builderId}::uuid`}
    ), grouped AS (
      SELECT ${byItem ? Prisma.sql`n.item` : Prisma.sql`c.key`} AS key, sum(n.decided)::int AS decided, sum(n.passed)::int AS passed
      FROM chosen c CROSS JOIN LATERAL (
        SELECT ${column(of)} count(*) AS decided, count(*) AS passed FROM item_results r
        WHERE r.house_id = c.house_id AND r.status IN ('pass', 'fail') ${chosenOf(of)} ${grouped(of)}
        UNION ALL
        SELECT ${column(again)} count(*) FILTER (WHERE r.status NOT IN ('pass', 'fail')), -count(*) FILTER (WHERE r.status IN ('pass', 'fail'))
        FROM failed_items f JOIN item_results r ON r.house_id = f.house_id AND r.item = f.item AND r.subject_id = f.subject_id
        WHERE f.house_id = c.house_id ${chosenOf(again)} ${grouped(again)}
      ) n GROUP BY 1
    )
    SELECT g.key, coalesce(${labels[by]}, g.key) AS label, g.decided, g.passed, count(*) OVER ()::int AS total
    FROM (SELECT key::text AS key, decided, passed FROM grouped WHERE decided > 0) g
    ORDER BY g.passed::float8 / g.decided, g.decided DESC, g.key ${window(filter)}`;
}
