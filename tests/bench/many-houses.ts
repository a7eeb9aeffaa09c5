import { withClient } from '@countercheck/host/database';

const extraRaters = 80;

/**
 * Copies the demo's houses, with everything that hangs on them, until there are as many as asked for. Copies
 * lie further back in time and belong to raters of their own, since no rater is in two places at once.
 */
export async function loadManyHouses(
  ownerUrl: string,
  houses: number,
): Promise<{ houses: number; readings: number }> {
  return withClient(ownerUrl, async (client) => {
    const run = (sql: string, values: unknown[] = []) => client.query(sql, values);
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
      `CREATE TEMP TABLE copy AS SELECT h.id AS old, g AS turn, gen_random_uuid() AS new
      FROM houses h CROSS JOIN generate_series(1, $1) g`,
      [copies],
    );
    await run('CREATE INDEX ON copy (old)');
    await run(`INSERT INTO houses (id, builder_id, community_id, plan_id, address, lot, climate_zone, conditioned_floor_area, conditioned_volume,
        bedrooms, storeys, foundation, ventilation_kind, ventilator_ducted, designed_ventilation, latitude, longitude, stage, rule_set_id, revision, created_at, updated_at)
      SELECT c.new, builder_id, community_id, plan_id, (100 + c.turn) || ' ' || address, lot || '-' || c.turn, climate_zone, conditioned_floor_area, conditioned_volume,
        bedrooms, storeys, foundation, ventilation_kind, ventilator_ducted, designed_ventilation, latitude, longitude, stage, rule_set_id, revision,
        created_at - c.turn * interval '1 hour', updated_at - c.turn * interval '1 hour'
      FROM houses h JOIN copy c ON c.old = h.id`);
    await run(`INSERT INTO house_systems (id, house_id, label, kind, has_ducts, ducts_inside, design_airflow, position)
      SELECT gen_random_uuid(), c.new, label, kind, has_ducts, ducts_inside, design_airflow, position FROM house_systems s JOIN copy c ON c.old = s.house_id`);
    await run(
      `CREATE TEMP TABLE visit_copy AS SELECT v.id AS old, c.turn, c.new AS house, gen_random_uuid() AS new FROM visits v JOIN copy c ON c.old = v.house_id`,
    );
    await run('CREATE INDEX ON visit_copy (old)');
    await run(`INSERT INTO visits (id, house_id, rater_id, kind, state, starts_at, ends_at, scope, started_at, submitted_at, created_at, updated_at)
      SELECT k.new, k.house, r.new, kind, state, starts_at - shift, ends_at - shift, scope, started_at - shift, submitted_at - shift, v.created_at - shift, now()
      FROM visits v JOIN visit_copy k ON k.old = v.id JOIN rater_copy r ON r.old = v.rater_id AND r.place = k.turn % ${extraRaters}
      CROSS JOIN LATERAL (SELECT (k.turn / ${extraRaters}) * interval '400 days' AS shift) s`);
    await run(`INSERT INTO failed_items (id, house_id, item, title, subject_id, subject_label, trade, state, reason, needed, correction, cautions, times_failed, opened_at, opened_by_id, closed_at, updated_at)
      SELECT gen_random_uuid(), c.new, item, title, subject_id, subject_label, trade, state, reason, needed, correction, cautions, times_failed,
        opened_at - c.turn * interval '1 hour', opened_by_id, closed_at, now() FROM failed_items f JOIN copy c ON c.old = f.house_id`);
    await run(`INSERT INTO readings (id, house_id, visit_id, test, subject_id, raw, entered, conditions, instrument_id, calibration_id, taken_by_id, taken_at, received_at)
      SELECT gen_random_uuid(), k.house, k.new, test, subject_id, raw, entered, conditions, instrument_id, calibration_id, taken_by_id,
        taken_at - k.turn * interval '1 hour', received_at FROM readings r JOIN visit_copy k ON k.old = r.visit_id WHERE r.supersedes_id IS NULL`);
    // Those of the house that was copied: the copy's rooms have other ids, which no rule looks at.
    await run(`INSERT INTO house_facts (house_id, facts, first_facts, hash, version)
      SELECT c.new, facts, first_facts, hash, version FROM house_facts f JOIN copy c ON c.old = f.house_id`);
    await run(`INSERT INTO installer_submissions (id, house_id, installer_id, revision, figures, signed_name, signed_at)
      SELECT gen_random_uuid(), c.new, installer_id, revision, figures, signed_name, signed_at - c.turn * interval '1 hour'
      FROM installer_submissions s JOIN copy c ON c.old = s.house_id`);
    // The trace of a verdict is read only with the one house that it belongs to.
    await run(`INSERT INTO item_results (id, house_id, item, subject_id, status, reason, verdict, computed_at)
      SELECT gen_random_uuid(), c.new, item, subject_id, status, reason, '{}', computed_at FROM item_results r JOIN copy c ON c.old = r.house_id`);
    await run(`INSERT INTO failed_item_entries (id, failed_item_id, kind, text, by_name, at)
      SELECT gen_random_uuid(), n.id, e.kind, e.text, e.by_name, e.at - c.turn * interval '1 hour' FROM copy c
      JOIN failed_items o ON o.house_id = c.old JOIN failed_item_entries e ON e.failed_item_id = o.id
      JOIN failed_items n ON n.house_id = c.new AND n.item = o.item AND n.subject_id = o.subject_id`);
    // Every tenth file was reviewed, or is to be; by nobody who measured in it.
    await run(`INSERT INTO file_reviews (id, house_id, revision, rater_id, source, due_on, state, reviewer_id, done_at, outcome, ordered_by, ordered_at)
      SELECT gen_random_uuid(), v.house_id, 1, v.rater_id, 'draw', v.starts_at::date + 30, CASE WHEN turn % 50 = 0 THEN 'open' ELSE 'done' END::file_review_state,
        CASE WHEN turn % 50 = 0 THEN NULL ELSE (SELECT id FROM users WHERE role = 'quality' LIMIT 1) END, CASE WHEN turn % 50 = 0 THEN NULL ELSE v.starts_at + interval '10 days' END,
        CASE WHEN turn % 50 = 0 THEN NULL ELSE 'clean' END::file_review_outcome, 'Draw', v.starts_at
      FROM visits v JOIN visit_copy k ON k.new = v.id WHERE k.turn % 10 = 0 AND v.kind = 'final' AND v.state = 'submitted'`);
    await run('ANALYZE');
    const after = await run(
      'SELECT (SELECT count(*)::int FROM houses) AS houses, (SELECT count(*)::int FROM readings) AS readings',
    );
    return after.rows[0] as { houses: number; readings: number };
  });
}
