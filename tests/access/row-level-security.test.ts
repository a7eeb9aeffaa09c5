import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { straightSql, type Scope, type Straight } from './straight-sql.ts';

let sql: Straight;
beforeAll(async () => {
  sql = await straightSql();
});
afterAll(() => sql.close());

describe('row-level security', () => {
  it('is on for every table, with no way round it for the role of the service', async () => {
    const { rows } = await sql.owner.query<{ relname: string }>(
      `SELECT relname FROM pg_class c JOIN pg_namespace n ON n.oid = c.relnamespace
       WHERE n.nspname = 'public' AND relkind = 'r' AND NOT relrowsecurity`,
    );
    expect(rows.map(({ relname }) => relname)).toEqual(['_prisma_migrations']);
    const role = await sql.app.query(
      'SELECT rolsuper, rolbypassrls FROM pg_roles WHERE rolname = current_user',
    );
    expect(role.rows).toEqual([{ rolsuper: false, rolbypassrls: false }]);
    const owned = await sql.app.query('SELECT 1 FROM pg_tables WHERE tableowner = current_user');
    expect(owned.rowCount).toBe(0);
  });

  it('shows nothing to nobody, in any table', async () => {
    const { rows: named } = await sql.owner.query<{ name: string }>(
      `SELECT tablename AS name FROM pg_tables WHERE schemaname = 'public' AND tablename <> '_prisma_migrations'`,
    );
    expect(named.length).toBeGreaterThan(30);
    for (const { name: table } of named) {
      expect(await sql.as({}, `SELECT 1 FROM "${table}"`), table).toBe(0);
      expect(await sql.as({ scope: 'builder' }, `SELECT 1 FROM "${table}" WHERE true`), table).toSatisfy(
        (rows) => rows === 0 || table === 'company' || table === 'rule_sets',
      );
    }
    // The same statement does find rows when somebody asks, so that the zeros above mean something.
    expect(await sql.as({ scope: 'staff' }, 'SELECT 1 FROM houses')).toBeGreaterThan(1);
  });

  it('does not outlast the transaction that said who asks', async () => {
    await sql.as({ scope: 'staff' }, 'SELECT 1');
    expect((await sql.app.query('SELECT 1 FROM houses')).rowCount).toBe(0);
  });

  it('shows a builder its own houses and what is in them, and no other', async () => {
    const { house, otherHouse } = sql.service.company;
    const seen = (scope: Scope, id: string) => sql.as(scope, 'SELECT 1 FROM houses WHERE id = $1', id);
    expect(await seen(sql.builderA, house.id)).toBe(1);
    expect(await seen(sql.builderA, otherHouse.id)).toBe(0);
    for (const table of [
      'house_systems',
      'rooms',
      'appliances',
      'visits',
      'failed_items',
      'reviews',
      'releases',
    ]) {
      expect(await sql.as(sql.builderB, `SELECT 1 FROM ${table} WHERE house_id = $1`, house.id), table).toBe(
        0,
      );
    }
    expect(await sql.as(sql.builderA, 'SELECT 1 FROM failed_items')).toBe(1);
    expect(await sql.as(sql.builderA, 'SELECT 1 FROM attachments')).toBe(1);
    expect(await sql.as(sql.builderB, 'SELECT 1 FROM attachments')).toBe(0);
    expect(await sql.as(sql.builderB, 'SELECT 1 FROM stored_files')).toBe(0);
  });

  it('keeps from outside what is nobody else’s business', async () => {
    const desk = ['file_reviews', 'file_review_findings', 'retests', 'corrective_actions'];
    for (const table of [...desk, 'corrective_evidence', 'rater_holds'])
      expect(await sql.as({ scope: 'staff' }, `SELECT 1 FROM ${table}`), table).toBeGreaterThan(0);
    const inside = [
      ...desk,
      'corrective_evidence',
      'rater_holds',
      'retest_comparisons',
      'events',
      'outgoing_mail',
      'sessions',
      'access_tokens',
      'sign_in_attempts',
    ];
    for (const table of [...inside, 'instruments', 'instrument_calibrations', 'readings'])
      expect(await sql.as(sql.builderA, `SELECT 1 FROM ${table}`), table).toBe(0);
    expect(
      await sql.as(
        sql.builderA,
        'SELECT 1 FROM users WHERE builder_id IS DISTINCT FROM $1',
        sql.service.company.builder.id,
      ),
    ).toBe(0);
    const installer: Scope = { scope: 'installer', house: sql.service.company.house.id };
    for (const table of [
      ...inside,
      'users',
      'visits',
      'readings',
      'item_results',
      'failed_items',
      'attachments',
    ])
      expect(await sql.as(installer, `SELECT 1 FROM ${table}`), table).toBe(0);
    expect(await sql.as(installer, 'SELECT 1 FROM houses')).toBe(1);
  });

  it('shows the link in a mail the contact that it was sent to, and lets it change nothing', async () => {
    const contact = await sql.records.contact();
    const reader: Scope = { scope: 'recipient', user: contact.id };
    const { rows } = await sql.owner.query<{ name: string }>(
      `SELECT tablename AS name FROM pg_tables WHERE schemaname = 'public' AND tablename <> '_prisma_migrations'`,
    );
    for (const { name } of rows)
      expect(await sql.as(reader, `SELECT 1 FROM "${name}"`), name).toBe(
        name === 'builder_contacts' || name === 'company' ? 1 : 0,
      );
    const change = `UPDATE builder_contacts SET notify = false WHERE id = $1`;
    expect(await sql.as(reader, change, contact.id)).toBe(0);
    expect(await sql.as({ scope: 'staff' }, change, contact.id)).toBe(1);
  });

  it('lets a builder change nothing of another, nor move anything there', async () => {
    const { house, otherHouse, otherBuilder } = sql.service.company;
    expect(await sql.as(sql.builderB, 'UPDATE houses SET note = $1 WHERE id = $2', 'x', house.id)).toBe(0);
    expect(await sql.as(sql.builderA, 'UPDATE houses SET note = $1 WHERE id = $2', 'x', house.id)).toBe(1);
    expect(
      await sql.as(
        sql.builderA,
        'UPDATE houses SET builder_id = $1 WHERE id = $2',
        otherBuilder.id,
        house.id,
      ),
    ).toBe('42501');
    const { failedItem } = sql.records;
    expect(
      await sql.as(sql.builderB, `UPDATE failed_items SET state = 'closed' WHERE id = $1`, failedItem.id),
    ).toBe(0);
    const entry = `INSERT INTO failed_item_entries (id, failed_item_id, kind, text, by_name)
      VALUES (gen_random_uuid(), $1, 'note', 'x', 'x')`;
    expect(await sql.as(sql.builderA, entry, failedItem.id)).toBe(1);
    expect(await sql.as(sql.builderB, entry, failedItem.id)).toBe('42501');
    const request = `INSERT INTO reinspection_requests (id, house_id, asked_by_id, asked_by_name)
      VALUES (gen_random_uuid(), $1, gen_random_uuid(), 'x')`;
    expect(await sql.as(sql.builderA, request, house.id)).toBe(1);
    expect(await sql.as(sql.builderA, request, otherHouse.id)).toBe('42501');
    for (const table of [
      'builders',
      'communities',
      'plans',
      'users',
      'visits',
      'reviews',
      'releases',
      'item_results',
    ])
      expect([0, '42501'], table).toContain(await sql.as(sql.builderA, `DELETE FROM ${table}`));
    expect(await sql.as(sql.builderA, `UPDATE users SET role = 'administrator', builder_id = NULL`)).toBe(0);
  });

  it('opens one house to an installer, and figures of that house only', async () => {
    const { house, otherHouse, installer } = sql.service.company;
    const scope: Scope = { scope: 'installer', house: house.id, user: installer.id };
    const sign = `INSERT INTO installer_submissions (id, house_id, installer_id, revision, figures, signed_name)
      VALUES (gen_random_uuid(), $1, $2, 9, '{}', 'x')`;
    expect(await sql.as(scope, sign, house.id, installer.id)).toBe(1);
    expect(await sql.as(scope, sign, otherHouse.id, installer.id)).toBe('42501');
    expect(await sql.as(scope, 'SELECT 1 FROM houses WHERE id = $1', otherHouse.id)).toBe(0);
    expect(await sql.as(scope, `UPDATE houses SET note = 'x' WHERE id = $1`, otherHouse.id)).toBe(0);
  });
});
