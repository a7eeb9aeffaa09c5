import type * as z from 'zod';
import type { replayFilterSchema } from '@countercheck/contracts';
import { Prisma } from '@countercheck/prisma';
import type { Db } from '../../kernel/database/database.ts';

export type ReplayFilter = z.output<typeof replayFilterSchema>;

/** The houses of a filter, in the order of their ids, which is nearly that of the disk. */
export async function housesOf(db: Db, filter: ReplayFilter, timezone: string): Promise<string[]> {
  const { from, to, builderId, communityId, stage, ruleSetId } = filter;
  const none = Prisma.sql`true`;
  const day = Prisma.sql`(SELECT (max(v.starts_at) AT TIME ZONE ${timezone})::date FROM visits v
    WHERE v.house_id = h.id AND v.state IN ('in_progress', 'submitted'))`;
  const rows = await db.$queryRaw<{ id: string }[]>`
    SELECT h.id FROM houses h WHERE
      ${builderId === null ? none : Prisma.sql`h.builder_id = ${builderId}::uuid`}
      AND ${communityId === null ? none : Prisma.sql`h.community_id = ${communityId}::uuid`}
      AND ${stage === null ? none : Prisma.sql`h.stage = ${stage}::house_stage`}
      AND ${ruleSetId === null ? none : Prisma.sql`h.rule_set_id = ${ruleSetId}::uuid`}
      AND ${from === null ? none : Prisma.sql`${day} >= ${from}::date`}
      AND ${to === null ? none : Prisma.sql`${day} <= ${to}::date`}
    ORDER BY h.id`;
  return rows.map(({ id }) => id);
}
