import { Prisma } from '@countercheck/prisma';
import type { Db } from '../../kernel/database/database.ts';

/**
 * Whose work each house is: the rater with the most readings that stand there, or else the one of the newest
 * submitted visit. Visits that measure a second time do not count. Houses without such a rater are left out.
 */
export async function firstRaters(db: Db, houseIds: readonly string[]): Promise<Map<string, string>> {
  if (houseIds.length === 0) return new Map();
  const rows = await db.$queryRaw<{ house: string; rater: string }[]>`
    SELECT DISTINCT ON (v.house_id) v.house_id::text AS house, v.rater_id::text AS rater
    FROM visits v
    LEFT JOIN LATERAL (
      SELECT count(*) AS taken FROM readings r
      WHERE r.visit_id = v.id AND NOT EXISTS (SELECT 1 FROM readings n WHERE n.supersedes_id = r.id)
    ) c ON true
    WHERE v.house_id = ANY(${Prisma.sql`${[...houseIds]}::uuid[]`}) AND v.kind <> 'quality' AND v.state = 'submitted'
    ORDER BY v.house_id, c.taken DESC, v.submitted_at DESC NULLS LAST, v.id`;
  return new Map(rows.map(({ house, rater }) => [house, rater]));
}
