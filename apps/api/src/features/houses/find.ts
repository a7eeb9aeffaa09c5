import { Prisma } from '@countercheck/prisma';
import type { HouseStage, HouseSummary } from '@countercheck/contracts';
import type { UserActor } from '../../kernel/actor.ts';
import type { Db } from '../../kernel/database/database.ts';
import { pageWindow } from '../../kernel/records/page.ts';

export interface HouseQuery {
  page: number;
  pageSize: number;
  search?: string | undefined;
  stage?: HouseStage | undefined;
  builderId?: string | undefined;
  communityId?: string | undefined;
  order: 'updated' | 'address' | 'lot';
}

const orders = {
  updated: Prisma.sql`h.updated_at DESC, h.id DESC`,
  address: Prisma.sql`h.address, h.id`,
  // Lot 9 comes before lot 10.
  lot: Prisma.sql`length(h.lot), h.lot, h.id`,
};

/** One or two letters are looked for where a word begins; the index knows no shorter parts than three. */
function searched(term: string): Prisma.Sql {
  const plain = term.replaceAll(/[\\%_]/g, String.raw`\$&`);
  const [anywhere, orElse] =
    [...term].length < 3 ? [`${plain}%`, `% ${plain}%`] : [`%${plain}%`, `%${plain}%`];
  return Prisma.sql`h.id IN (SELECT houses_like(${anywhere}, ${orElse}))`;
}

function conditions(actor: UserActor, query: HouseQuery): Prisma.Sql {
  const all = [Prisma.sql`true`];
  // The policies say the same; said here as well, an index serves it.
  if (actor.builderId !== null) all.push(Prisma.sql`h.builder_id = ${actor.builderId}::uuid`);
  if (query.builderId) all.push(Prisma.sql`h.builder_id = ${query.builderId}::uuid`);
  if (query.communityId) all.push(Prisma.sql`h.community_id = ${query.communityId}::uuid`);
  if (query.stage) all.push(Prisma.sql`h.stage = ${query.stage}::house_stage`);
  if (query.search) all.push(searched(query.search));
  return Prisma.join(all, ' AND ');
}

interface Row extends Omit<HouseSummary, 'updatedAt' | 'builder' | 'community' | 'plan'> {
  updatedAt: Date;
  builderId: string;
  builderName: string;
  communityId: string;
  communityName: string;
  planId: string | null;
  planName: string | null;
}

export function houseListSql(actor: UserActor, query: HouseQuery): { rows: Prisma.Sql; total: Prisma.Sql } {
  const where = conditions(actor, query);
  const order = orders[query.order];
  const { skip, take } = pageWindow(query);
  return {
    // The page is cut first, so that names and failed items are looked up for its rows only.
    rows: Prisma.sql`
      SELECT h.id, h.address, h.lot, h.stage::text, h.revision, h.updated_at AS "updatedAt",
        h.climate_zone AS "climateZone", h.conditioned_floor_area AS "conditionedFloorArea",
        b.id AS "builderId", b.name AS "builderName", c.id AS "communityId", c.name AS "communityName",
        p.id AS "planId", p.name AS "planName",
        (SELECT count(*)::int FROM failed_items f WHERE f.house_id = h.id AND f.state <> 'closed') AS "openFailedItems"
      FROM (SELECT * FROM houses h WHERE ${where} ORDER BY ${order} LIMIT ${take} OFFSET ${skip}) h
        JOIN builders b ON b.id = h.builder_id JOIN communities c ON c.id = h.community_id
        LEFT JOIN plans p ON p.id = h.plan_id
      ORDER BY ${order}`,
    total: Prisma.sql`SELECT count(*)::int AS total FROM houses h WHERE ${where}`,
  };
}

/** Houses filtered, ordered and cut to a page by the database: two statements, however many houses there are. */
export async function findHouses(
  db: Db,
  actor: UserActor,
  query: HouseQuery,
): Promise<{ items: HouseSummary[]; total: number }> {
  const sql = houseListSql(actor, query);
  const rows = await db.$queryRaw<Row[]>(sql.rows);
  const [count] = await db.$queryRaw<{ total: number }[]>(sql.total);
  const items = rows.map(
    ({ builderId, builderName, communityId, communityName, planId, planName, ...row }) => ({
      ...row,
      updatedAt: row.updatedAt.toISOString(),
      builder: { id: builderId, name: builderName },
      community: { id: communityId, name: communityName },
      plan: planId === null || planName === null ? null : { id: planId, name: planName },
    }),
  );
  return { items, total: count?.total ?? 0 };
}
