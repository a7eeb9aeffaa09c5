import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import type { Db } from '../../kernel/database/database.ts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { found } from '../../kernel/problems/app-error.ts';
import { pageAnswer, pageWindow } from '../../kernel/records/page.ts';
import {
  builderCounts,
  communityCounts,
  planCounts,
  presentBuilder,
  presentCommunity,
  presentContact,
  presentPlan,
} from './present.ts';

async function openFailures(db: Db, builderIds: string[]): Promise<Map<string, number>> {
  const rows = await db.$queryRaw<{ builder_id: string; open: number }[]>`
    SELECT h.builder_id, count(*)::int AS open FROM failed_items f JOIN houses h ON h.id = f.house_id
    WHERE f.state <> 'closed' AND h.builder_id = ANY(${builderIds}::uuid[]) GROUP BY h.builder_id`;
  return new Map(rows.map((row) => [row.builder_id, row.open]));
}

export function readBuilders(app: FastifyInstance): void {
  implementInTransaction(app, routes.builders.list, async ({ db, query }) => {
    const where = query.search ? { name: { contains: query.search, mode: 'insensitive' as const } } : {};
    const rows = await db.builder.findMany({
      where,
      include: builderCounts,
      orderBy: { name: 'asc' },
      ...pageWindow(query),
    });
    const open = await openFailures(
      db,
      rows.map(({ id }) => id),
    );
    return pageAnswer(
      rows.map((row) => presentBuilder(row, open.get(row.id) ?? 0)),
      await db.builder.count({ where }),
      query,
    );
  });

  implementInTransaction(app, routes.builders.show, async ({ db, params }) => {
    const row = found(
      await db.builder.findUnique({
        where: params,
        include: {
          ...builderCounts,
          contacts: { orderBy: { name: 'asc' } },
          communities: { include: communityCounts, orderBy: { name: 'asc' } },
          plans: { include: planCounts, orderBy: { name: 'asc' } },
        },
      }),
      'builder',
    );
    const open = await openFailures(db, [row.id]);
    return {
      ...presentBuilder(row, open.get(row.id) ?? 0),
      contacts: row.contacts.map(presentContact),
      communityList: row.communities.map(presentCommunity),
      planList: row.plans.map(presentPlan),
    };
  });
}
