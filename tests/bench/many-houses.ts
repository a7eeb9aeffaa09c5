import { withClient } from '@countercheck/host/database';

const extraRaters = 80;

/** Memory as a server with so much data is given; the disk is not waited for, since nothing here is kept. */
export const roomyDatabase = {
  shared_buffers: '1GB',
  work_mem: '16MB',
  maintenance_work_mem: '256MB',
  max_wal_size: '8GB',
};

/**
 * Copies the demo's houses, with everything that hangs on them, until there are as many as asked for. Copies belong
 * to raters of their own, since no rater is in two places at once; when all of those are taken, the next lie further
 * back in time. Done as the superuser with triggers off: what is copied was checked when it was first written.
 */
export async function loadManyHouses(
  superuserUrl: string,
  houses: number,
): Promise<{ houses: number; readings: number }> {
  return withClient(superuserUrl, async (client) => {
    const run = (sql: string, values: unknown[] = []) => client.query(sql, values);
    await run('SET session_replication_role = replica');
    const { rows } = await run('SELECT count(*)::int AS n FROM houses');
    const copies = Math.max(0, Math.ceil(houses / (rows[0] as { n: number }).n) - 1);
    await run(
      `CREATE TEMP TABLE rater_copy AS SELECT u.id AS old, g AS place, gen_random_uuid() AS new
      FROM users u CROSS JOIN generate_series(0, $1 - 1) g WHERE u.role = 'rater'`,
      [extraRaters],
    );
    await run(`INSERT INTO users (id, email, name, role) SELECT c.new, 'copy-' || c.place || '-' || u.email, u.name || ' ' || c.place, 'rater'
      FROM rater_copy c JOIN users u ON u.id = c.old`);
    await run(
      `CREATE TEMP TABLE copy AS SELECT h.id AS old, g AS turn, g % ${extraRaters} AS place,
        (g / ${extraRaters}) * interval '400 days' AS shift, gen_random_uuid() AS new
      FROM houses h CROSS JOIN generate_series(1, $1) g`,
      [copies],
    );
    await run('CREATE INDEX ON copy (old)');
    await run('ANALYZE copy');
    await run(`INSERT INTO houses (id, builder_id, community_id, plan_id, address, lot, climate_zone, conditioned_floor_area, conditioned_volume,
        bedrooms, storeys, foundation, ventilation_kind, ventilator_ducted, designed_ventilation, latitude, longitude, stage, rule_set_id, revision, created_at, updated_at)
      SELECT c.new, builder_id, community_id, plan_id, (100 + c.turn) || ' ' || address, lot || '-' || c.turn, climate_zone, conditioned_floor_area, conditioned_volume,
        bedrooms, storeys, foundation, ventilation_kind, ventilator_ducted, designed_ventilation, latitude, longitude, stage, rule_set_id, revision,
        created_at - shift, updated_at - shift
      FROM houses h JOIN copy c ON c.old = h.id`);
    await run(`INSERT INTO house_systems (id, house_id, label, kind, has_ducts, ducts_inside, design_airflow, position)
      SELECT gen_random_uuid(), c.new, label, kind, has_ducts, ducts_inside, design_airflow, position FROM house_systems s JOIN copy c ON c.old = s.house_id`);
    await run(
      `CREATE TEMP TABLE visit_copy AS SELECT v.id AS old, c.turn, c.place, c.shift, c.new AS house, r.new AS rater, gen_random_uuid() AS new
      FROM visits v JOIN copy c ON c.old = v.house_id JOIN rater_copy r ON r.old = v.rater_id AND r.place = c.place`,
    );
    await run('CREATE INDEX ON visit_copy (old)');
    await run('ANALYZE visit_copy');
    await run(`INSERT INTO visits (id, house_id, rater_id, kind, state, starts_at, ends_at, scope, started_at, submitted_at, created_at, updated_at)
      SELECT k.new, k.house, k.rater, kind, state, starts_at - shift, ends_at - shift, scope, started_at - shift, submitted_at - shift, v.created_at - shift, now()
      FROM visits v JOIN visit_copy k ON k.old = v.id`);
    await run(`INSERT INTO failed_items (id, house_id, item, title, subject_id, subject_label, trade, state, reason, needed, correction, cautions, times_failed, opened_at, opened_by_id, closed_at, updated_at)
      SELECT gen_random_uuid(), c.new, item, title, subject_id, subject_label, trade, state, reason, needed, correction, cautions, times_failed,
        opened_at - shift, opened_by_id, closed_at - shift, now() FROM failed_items f JOIN copy c ON c.old = f.house_id`);
    await run(`INSERT INTO readings (id, house_id, visit_id, test, subject_id, raw, entered, conditions, instrument_id, calibration_id, taken_by_id, taken_at, received_at, figures_revision)
      SELECT gen_random_uuid(), k.house, k.new, test, subject_id, raw, entered, conditions, instrument_id, calibration_id, t.new,
        taken_at - shift, received_at - shift, figures_revision FROM readings r JOIN visit_copy k ON k.old = r.visit_id
        JOIN rater_copy t ON t.old = r.taken_by_id AND t.place = k.place WHERE r.supersedes_id IS NULL`);
    // Those of the house that was copied: the copy's rooms have other ids, which no rule looks at.
    await run(`INSERT INTO house_facts (house_id, facts, first_facts, hash, version)
      SELECT c.new, facts, first_facts, hash, version FROM house_facts f JOIN copy c ON c.old = f.house_id`);
    await run(`INSERT INTO installer_submissions (id, house_id, installer_id, revision, figures, signed_name, signed_at, frozen_at)
      SELECT gen_random_uuid(), c.new, installer_id, revision, figures, signed_name, signed_at - shift, frozen_at - shift
      FROM installer_submissions s JOIN copy c ON c.old = s.house_id`);
    // Of a verdict only what signals hold a reading against; its trace is read only with the one house that it belongs to.
    await run(`INSERT INTO item_results (id, house_id, item, subject_id, status, reason, verdict, computed_at)
      SELECT gen_random_uuid(), c.new, item, subject_id, status, reason, jsonb_build_object('headline', verdict -> 'headline'), computed_at - shift
      FROM item_results r JOIN copy c ON c.old = r.house_id`);
    await run('ANALYZE failed_items');
    await run(`INSERT INTO failed_item_entries (id, failed_item_id, kind, text, by_name, at)
      SELECT gen_random_uuid(), n.id, e.kind, e.text, e.by_name, e.at - shift FROM copy c
      JOIN failed_items o ON o.house_id = c.old JOIN failed_item_entries e ON e.failed_item_id = o.id
      JOIN failed_items n ON n.house_id = c.new AND n.item = o.item AND n.subject_id = o.subject_id`);
    // What was sealed is read only with its one release.
    await run(`INSERT INTO releases (id, house_id, revision, released_at, released_by, released_by_id, content, hash)
      SELECT gen_random_uuid(), c.new, revision, released_at - shift, released_by, released_by_id, '{}', hash FROM releases r JOIN copy c ON c.old = r.house_id`);
    // Every tenth file was reviewed, or is to be; by nobody who measured in it.
    await run(`INSERT INTO file_reviews (id, house_id, revision, rater_id, source, due_on, state, reviewer_id, done_at, outcome, ordered_by, ordered_at)
      SELECT gen_random_uuid(), k.house, 1, k.rater, 'draw', (v.starts_at - shift)::date + 30, CASE WHEN turn % 50 = 0 THEN 'open' ELSE 'done' END::file_review_state,
        CASE WHEN turn % 50 = 0 THEN NULL ELSE (SELECT id FROM users WHERE role = 'quality' LIMIT 1) END, CASE WHEN turn % 50 = 0 THEN NULL ELSE v.starts_at - shift + interval '10 days' END,
        CASE WHEN turn % 50 = 0 THEN NULL ELSE 'clean' END::file_review_outcome, 'Draw', v.starts_at - shift
      FROM visits v JOIN visit_copy k ON k.old = v.id WHERE k.turn % 10 = 0 AND v.kind = 'final' AND v.state = 'submitted'`);
    // What was measured a second time, and what is still to be.
    await run(`INSERT INTO retests (id, house_id, rater_id, source, due_on, state, visit_id, done_at, outcome, ordered_by, ordered_at)
      SELECT gen_random_uuid(), k.house, f.new, 'draw', (v.ends_at - shift)::date + 30, 'done', k.new, v.ends_at - shift, 'agrees', 'Draw', v.starts_at - shift
      FROM visits v JOIN visit_copy k ON k.old = v.id JOIN visits o ON o.house_id = v.house_id AND o.kind = 'final'
      JOIN rater_copy f ON f.old = o.rater_id AND f.place = k.place WHERE v.kind = 'quality' AND v.state = 'submitted'`);
    await run(`INSERT INTO retests (id, house_id, rater_id, source, due_on, state, ordered_by, ordered_at)
      SELECT gen_random_uuid(), k.house, k.rater, 'draw', (v.starts_at - shift)::date + 60, 'ordered', 'Draw', v.starts_at - shift
      FROM visits v JOIN visit_copy k ON k.old = v.id WHERE k.turn % 100 = 7 AND v.kind = 'final' AND v.state = 'submitted'`);
    // Two photos a visit, each of another scene; a look compares their hashes, not their bytes.
    await run(`CREATE TEMP TABLE photo_copy AS SELECT k.new AS visit, k.house, k.rater, v.starts_at - shift + interval '20 minutes' AS at, gen_random_uuid() AS file
      FROM visit_copy k JOIN visits v ON v.id = k.old CROSS JOIN generate_series(1, 2) WHERE v.state = 'submitted'`);
    await run(
      `INSERT INTO stored_files (id, sha256, media_type, size, bytes) SELECT file, md5(file::text) || md5(visit::text), 'image/jpeg', 1, '\\x00' FROM photo_copy`,
    );
    await run(
      `INSERT INTO picture_hashes (file_id, hash) SELECT file, md5(file::text) || md5(file::text || '2') FROM photo_copy`,
    );
    await run(`INSERT INTO attachments (id, house_id, file_id, visit_id, taken_at, added_by_id, added_by_name, added_at)
      SELECT gen_random_uuid(), house, file, visit, at, rater, '', at FROM photo_copy`);
    // As autovacuum would have done meanwhile.
    await run('VACUUM ANALYZE');
    const after = await run(
      'SELECT (SELECT count(*)::int FROM houses) AS houses, (SELECT count(*)::int FROM readings) AS readings',
    );
    return after.rows[0] as { houses: number; readings: number };
  });
}
