import { Prisma } from '@countercheck/prisma';
import type { firstTimeGroupings } from '@countercheck/contracts';
import type { Db } from '../../../kernel/database/database.ts';
import { onDays, window, type BoardFilter } from './filter.ts';

type Grouping = (typeof firstTimeGroupings)[number];

const keys: Record<Grouping, Prisma.Sql> = {
  builder: Prisma.sql`h.builder_id`,
  rater: Prisma.sql`v.rater_id`,
  installer: Prisma.sql`s.installer_id`,
  item: Prisma.sql`r.item`,
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
  return db.$queryRaw`
    WITH first_visit AS (
      SELECT DISTINCT ON (house_id) house_id, rater_id, submitted_at FROM visits
      WHERE state = 'submitted' AND kind IN ('final', 'rough')
      ORDER BY house_id, (kind = 'final') DESC, starts_at
    ), grouped AS (
      SELECT ${keys[by]} AS key, count(*)::int AS decided, count(*) FILTER (WHERE f.id IS NULL)::int AS passed
      FROM first_visit v JOIN houses h ON h.id = v.house_id
      ${by === 'installer' ? Prisma.sql`JOIN LATERAL (SELECT installer_id FROM installer_submissions WHERE house_id = h.id ORDER BY revision DESC LIMIT 1) s ON TRUE` : nothing}
      JOIN item_results r ON r.house_id = h.id
      LEFT JOIN failed_items f ON f.house_id = r.house_id AND f.item = r.item AND f.subject_id = r.subject_id
      WHERE (r.status IN ('pass', 'fail') OR f.id IS NOT NULL) AND ${onDays(Prisma.sql`v.submitted_at`, filter, timezone)}
      ${builderId === undefined ? nothing : Prisma.sql`AND h.builder_id = ${builderId}::uuid`}
      ${item === undefined ? nothing : Prisma.sql`AND r.item = ${item}`}
      ${trade === undefined ? nothing : Prisma.sql`AND r.item IN (SELECT item FROM failed_items WHERE trade = ${trade})`}
      GROUP BY 1
    )
    SELECT g.key::text AS key, coalesce(${labels[by]}, g.key::text) AS label, g.decided, g.passed, count(*) OVER ()::int AS total
    FROM (SELECT key::text AS key, decided, passed FROM grouped) g
    ORDER BY g.passed::float8 / g.decided, g.decided DESC, g.key ${window(filter)}`;
}
