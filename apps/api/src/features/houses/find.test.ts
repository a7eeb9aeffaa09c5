import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { Prisma } from '@countercheck/prisma';
import { withClient } from '@countercheck/host/database';
import { startApp, type TestApp } from '../../../../../tests/support/app.ts';
import type { UserActor } from '../../kernel/actor.ts';
import { findHouses, houseListSql, type HouseQuery } from './find.ts';

const many = 20_000;
let t: TestApp;
beforeAll(async () => {
  t = await startApp();
  const { builder, otherBuilder, ruleSet } = t.company;
  await withClient(t.urls.ownerUrl, async (client) => {
    await client.query(
      `INSERT INTO houses (id, builder_id, community_id, plan_id, address, lot, climate_zone, conditioned_floor_area,
         conditioned_volume, bedrooms, storeys, foundation, ventilation_kind, stage, rule_set_id, updated_at)
       SELECT gen_random_uuid(), CASE WHEN n % 100 = 0 THEN $1::uuid ELSE $2 END,
         CASE WHEN n % 100 = 0 THEN $3::uuid ELSE $4 END, NULL,
         n || ' ' || (ARRAY['Alder','Birch','Cedar','Hazel','Rowan'])[1 + n % 5] || ' ' || md5(n::text), 'L' || n, '4A',
         1800, 16000, 3, 1, 'slab', 'none', (CASE WHEN n % 50 = 0 THEN 'corrections' ELSE 'ready_to_book' END)::house_stage,
         $5::uuid, now() - n * interval '1 minute'
       FROM generate_series(1, ${many}) n`,
      [builder.id, otherBuilder.id, builder.communityId, otherBuilder.communityId, ruleSet.id],
    );
    await client.query('VACUUM ANALYZE houses');
  });
});
afterAll(() => t.close());

const actorOf = (who: 'office' | 'builder'): UserActor => {
  const { id, name, role } = t.company.users[who];
  return { kind: 'user', id, name, role, builderId: who === 'builder' ? t.company.builder.id : null };
};
const first: HouseQuery = { page: 1, pageSize: 25, order: 'updated' };
const explain = (actor: UserActor, query: HouseQuery) =>
  t.app.database.as(actor, async (db) => {
    const { rows } = houseListSql(actor, query);
    const lines = await db.$queryRaw<Record<string, string>[]>(
      Prisma.sql`EXPLAIN (ANALYZE, TIMING OFF) ${rows}`,
    );
    const plan = lines.map((line) => Object.values(line)[0]!);
    // The policies of other parties stand in the plan too; what was never run was never slow.
    return plan.filter((line) => !line.includes('never executed')).join('\n');
  });

describe(`the list of ${many} houses`, () => {
  test('is read from an index in the order of the last change and of the address', async () => {
    expect(await explain(actorOf('office'), first)).toMatch(/Index Scan.* using houses_updated_at_idx/);
    expect(await explain(actorOf('office'), { ...first, order: 'address' })).toContain(
      'houses_address_id_idx',
    );
    for (const order of ['updated', 'address'] as const)
      expect(await explain(actorOf('office'), { ...first, order })).not.toContain('Seq Scan on houses');
  });

  test('a search, a stage and a builder’s own are read from indexes', async () => {
    for (const [who, query] of [
      ['office', { search: 'Rowan' }],
      ['office', { stage: 'corrections' }],
      ['builder', {}],
      ['builder', { search: '77' }],
    ] as const)
      expect(await explain(actorOf(who), { ...first, ...query })).not.toContain('Seq Scan on houses');
    const plan = await withClient(t.urls.ownerUrl, async (client) => {
      const sql = `EXPLAIN SELECT id FROM houses WHERE address ILIKE '%1234 ro%' OR lot ILIKE '%1234 ro%'`;
      return (await client.query<Record<string, string>>(sql)).rows
        .map((row) => row['QUERY PLAN'])
        .join('\n');
    });
    expect(plan).toContain('houses_address_trgm');
    expect(plan).toContain('houses_lot_trgm');
  });

  test('a search looks past nobody’s fence', async () => {
    const mine = await t.app.database.as(actorOf('builder'), (db) =>
      findHouses(db, actorOf('builder'), { ...first, search: 'Alder' }),
    );
    expect(mine.total).toBe(many / 100);
    expect(new Set(mine.items.map(({ builder }) => builder.id))).toEqual(new Set([t.company.builder.id]));
    const all = await t.app.database.as(actorOf('office'), (db) =>
      findHouses(db, actorOf('office'), { ...first, search: 'Alder' }),
    );
    expect(all.total).toBe(many / 5);
  });

  test('somebody without a scope gets ids of houses from nowhere', async () => {
    const rows = await t.app.database.as(
      { kind: 'nobody' },
      (db) => db.$queryRaw<object[]>`SELECT id FROM houses`,
    );
    expect(rows).toEqual([]);
  });
});
