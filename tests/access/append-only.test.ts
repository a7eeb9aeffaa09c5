import type pg from 'pg';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { straightSql, type Straight } from './straight-sql.ts';

let sql: Straight;
beforeAll(async () => {
  sql = await straightSql();
});
afterAll(() => sql.close());

describe('records that only grow', () => {
  const refused = (statement: string, client: pg.Client) =>
    client.query(statement).then(
      () => 'done',
      (error: pg.DatabaseError) => error.code,
    );

  it.each(['events', 'event_chain', 'log_heads', 'readings', 'releases', 'corrective_evidence'])(
    '%s: not even the owner changes or removes one',
    async (table) => {
      if (table === 'log_heads')
        await sql.owner.query(`INSERT INTO log_heads (day, sequence, hash) VALUES ('2026-01-01', 0, 'x')`);
      expect((await sql.owner.query(`SELECT 1 FROM ${table}`)).rowCount).toBeGreaterThan(0);
      const keys: Record<string, string> = {
        ...{ events: 'actor_name', event_chain: 'event_id', log_heads: 'hash' },
        corrective_evidence: 'text',
      };
      const key = keys[table] ?? 'house_id';
      for (const statement of [
        `UPDATE ${table} SET ${key} = ${key}`,
        `DELETE FROM ${table}`,
        `TRUNCATE ${table} CASCADE`,
      ])
        expect(await refused(statement, sql.owner), statement).toBe('42501');
      for (const statement of [`UPDATE ${table} SET ${key} = ${key}`, `DELETE FROM ${table}`])
        expect(await sql.as({ scope: 'staff' }, statement), statement).toBe('42501');
    },
  );

  const drawn = ['draws', 'draw_frames', 'draw_results', 'draw_members', 'draw_orders'];
  it.each([...drawn, 'batches', 'batch_houses', 'batch_events'])(
    '%s: no step of a draw or of a batch is taken back',
    async (table) => {
      const trigger = 'SELECT tgname FROM pg_trigger WHERE tgrelid = $1::regclass AND NOT tgisinternal';
      const { rows } = await sql.owner.query(trigger, [table]);
      expect(rows.map(({ tgname }) => tgname).sort()).toEqual([
        `${table}_append_only`,
        `${table}_no_truncate`,
      ]);
      const key =
        table === 'draws' || table === 'batches' ? 'title' : table === 'batch_houses' ? 'house_id' : 'id';
      const column = table.startsWith('draw_') ? 'draw_id' : key;
      expect(await refused(`TRUNCATE ${table} CASCADE`, sql.owner)).toBe('42501');
      for (const statement of [`UPDATE ${table} SET ${column} = ${column}`, `DELETE FROM ${table}`])
        expect(await sql.as({ scope: 'staff' }, statement), statement).toBe('42501');
    },
  );

  it('a published rule set and signed figures keep what they say', async () => {
    expect(await refused(`UPDATE rule_sets SET body = '{}'`, sql.owner)).toBe('42501');
    expect(await refused(`UPDATE rule_sets SET offered = true`, sql.owner)).toBe('done');
    const { house, installer } = sql.service.company;
    await sql.owner.query(
      `INSERT INTO installer_submissions (id, house_id, installer_id, revision, figures, signed_name)
       VALUES (gen_random_uuid(), $1, $2, 1, '{}', 'x')`,
      [house.id, installer.id],
    );
    expect(await refused(`UPDATE installer_submissions SET figures = '{"a": {}}'`, sql.owner)).toBe('42501');
    expect(await refused(`UPDATE installer_submissions SET frozen_at = now()`, sql.owner)).toBe('done');
    expect(await refused(`UPDATE installer_submissions SET frozen_at = NULL`, sql.owner)).toBe('42501');
    expect(await refused(`UPDATE rule_sets SET effective_on = effective_on - 1`, sql.owner)).toBe('42501');
    for (const change of [
      "signed_at = signed_at - interval '1 day'",
      'revision = 7',
      "link_id = NULL, signed_name = 'y'",
    ])
      expect(await refused(`UPDATE installer_submissions SET ${change}`, sql.owner), change).toBe('42501');
    await sql.owner.query(
      `INSERT INTO figure_openings (id, house_id, reason, opened_by_id, opened_by)
       VALUES (gen_random_uuid(), $1, 'x', gen_random_uuid(), 'x')`,
      [house.id],
    );
    expect(await refused(`UPDATE figure_openings SET reason = 'y'`, sql.owner)).toBe('42501');
    expect(await refused(`UPDATE figure_openings SET closed_at = now()`, sql.owner)).toBe('done');
    expect(await refused(`UPDATE figure_openings SET closed_at = NULL`, sql.owner)).toBe('42501');
    expect(await sql.as({ scope: 'staff' }, `DELETE FROM figure_openings`)).toBe('42501');
  });

  it('a calibration, a photo’s place, a review and what was done about a failed item stay', async () => {
    const { house, users } = sql.service.company;
    const ids = [house.id, users.rater.id];
    const insert = (statement: string, values: unknown[] = ids) => sql.owner.query(statement, values);
    const review = await insert(
      `INSERT INTO reviews (id, house_id, revision, reviewer_id, reviewer, outcome)
       VALUES (gen_random_uuid(), $1, 1, $2, 'x', 'returned') RETURNING id`,
    );
    await insert(
      `INSERT INTO review_findings (id, review_id, severity, text) VALUES (gen_random_uuid(), $1, 'major', 'x')`,
      [(review.rows as { id: string }[])[0]!.id],
    );
    await insert(
      `INSERT INTO failed_item_entries (id, failed_item_id, kind, text, by_name)
       SELECT gen_random_uuid(), id, 'note', 'x', 'x' FROM failed_items LIMIT 1`,
      [],
    );
    await insert(
      `WITH f AS (INSERT INTO stored_files (id, sha256, media_type, size, bytes)
         VALUES (gen_random_uuid(), 'x', 'image/png', 1, 'x') RETURNING id)
       INSERT INTO attachments (id, house_id, file_id, added_by_id, added_by_name)
       SELECT gen_random_uuid(), $1, f.id, $2, 'x' FROM f`,
    );
    const tables: Record<string, string> = {
      ...{ instrument_calibrations: `due_on = due_on + 900`, reviews: `outcome = 'released'` },
      ...{
        failed_item_entries: `text = 'y'`,
        attachments: `item = 'y'`,
        review_findings: `severity = 'remark'`,
      },
    };
    for (const [table, change] of Object.entries(tables)) {
      expect((await sql.owner.query(`SELECT 1 FROM ${table}`)).rowCount, table).toBeGreaterThan(0);
      for (const statement of [
        `UPDATE ${table} SET ${change}`,
        `DELETE FROM ${table}`,
        `TRUNCATE ${table} CASCADE`,
      ])
        expect(await refused(statement, sql.owner), statement).toBe('42501');
      expect(await sql.as({ scope: 'staff' }, `UPDATE ${table} SET ${change}`), table).toBe('42501');
    }
    for (const table of ['installer_submissions', 'rule_sets'])
      for (const statement of [`DELETE FROM ${table}`, `TRUNCATE ${table} CASCADE`])
        expect(await refused(statement, sql.owner), statement).toBe('42501');
    expect(await refused(`UPDATE review_findings SET answer = 'y', answered_at = now()`, sql.owner)).toBe(
      'done',
    );
  });
});
