import type { RangeCalibration } from '@countercheck/measurement';
import { Prisma } from '@countercheck/prisma';
import type { Db } from '../../kernel/database/database.ts';

/** Whose readings, or which: one of the three. */
export type ReadingsOf = { raterId: string } | { instrumentId: string } | { installerId: string };

export interface Period {
  /** first and last day at the houses, yyyy-mm-dd */
  from: string;
  to: string;
  timezone: string;
}

/** A raw reading beside everything that a signal holds it against, as the database gives it. */
export interface ReadingRow {
  id: string;
  house_id: string;
  rater_id: string;
  test: string;
  subject_id: string;
  raw: {
    values: Record<string, number>;
    choices: Record<string, string>;
    rows: { values: Record<string, number>; choices: Record<string, string> }[];
  };
  entered: Record<string, { text: string; unit: string }>;
  taken_at: Date;
  stands: boolean;
  /** another reading replaced it during the same visit */
  read_again: boolean;
  instrument_id: string | null;
  instrument_kind: string | null;
  accuracy_percent: number | null;
  accuracy_absolute: number | null;
  resolution: number | null;
  /** false before the first calibration; null without an instrument */
  calibrated: boolean | null;
  overdue: boolean | null;
  ranges: RangeCalibration[] | null;
  reported: Record<string, number> | null;
  installer_id: string | null;
  plan_id: string | null;
  /** ft² */
  floor_area: number;
  verdict_value: number | null;
  verdict_low: number | null;
  verdict_high: number | null;
}

/** The item that a test decides, where it has another name. */
const itemOf = Prisma.sql`CASE r.test WHEN 'bedroom-pressure' THEN 'bedroom-pressure-relief' ELSE r.test END`;

const looked = Prisma.sql`r.test IN ('supply-static', 'return-static', 'bedroom-pressure', 'duct-leakage-total',
  'envelope-leakage', 'whole-house-ventilation', 'kitchen-exhaust', 'bath-exhaust')`;

function chosen(of: ReadingsOf): Prisma.Sql {
  if ('raterId' in of) return Prisma.sql`r.taken_by_id = ${of.raterId}::uuid`;
  if ('instrumentId' in of) return Prisma.sql`r.instrument_id = ${of.instrumentId}::uuid`;
  return Prisma.sql`r.house_id IN (SELECT house_id FROM installer_submissions WHERE installer_id = ${of.installerId}::uuid)`;
}

/**
 * The readings of one rater, instrument or installer's houses over a period, in one statement, in the order in which
 * they were taken: with the calibration of the day, the figures that each was read against and what the verdict
 * compared. `tests` narrows to some tests, `newest` to so many of the last.
 */
export async function readReadings(
  db: Db,
  of: ReadingsOf,
  { from, to, timezone }: Period,
  { tests, newest }: { tests?: readonly string[]; newest?: number } = {},
): Promise<ReadingRow[]> {
  const narrowed = tests ? Prisma.sql`AND r.test = ANY(${tests})` : Prisma.empty;
  const last =
    newest === undefined ? Prisma.empty : Prisma.sql`ORDER BY r.taken_at DESC, r.id DESC LIMIT ${newest}`;
  return db.$queryRaw<ReadingRow[]>`
    SELECT r.id, r.house_id, r.taken_by_id AS rater_id, r.test, r.subject_id, r.raw, r.entered, r.taken_at,
      NOT EXISTS (SELECT 1 FROM readings n WHERE n.supersedes_id = r.id) AS stands,
      EXISTS (SELECT 1 FROM readings n WHERE n.supersedes_id = r.id AND n.visit_id = r.visit_id) AS read_again,
      r.instrument_id, i.kind AS instrument_kind, i.accuracy_percent, i.accuracy_absolute, i.resolution,
      CASE WHEN i.id IS NOT NULL THEN c.id IS NOT NULL END AS calibrated,
      c.due_on < (r.taken_at AT TIME ZONE ${timezone})::date AS overdue, c.ranges,
      s.figures -> r.subject_id AS reported, s.installer_id, h.plan_id,
      h.conditioned_floor_area AS floor_area,
      v.value AS verdict_value, v.low AS verdict_low, v.high AS verdict_high
    FROM (
      SELECT r.* FROM readings r WHERE ${chosen(of)} AND ${looked} ${narrowed}
        AND r.taken_at >= (${from}::date)::timestamp AT TIME ZONE ${timezone}
        AND r.taken_at < (${to}::date + 1)::timestamp AT TIME ZONE ${timezone} ${last}) r
    JOIN houses h ON h.id = r.house_id
    LEFT JOIN instruments i ON i.id = r.instrument_id
    LEFT JOIN LATERAL (
      SELECT id, due_on, ranges FROM instrument_calibrations
      WHERE instrument_id = r.instrument_id AND calibrated_on <= (r.taken_at AT TIME ZONE ${timezone})::date
      ORDER BY calibrated_on DESC LIMIT 1) c ON true
    LEFT JOIN LATERAL (
      -- the revision that was read against; from before that was kept the first that was frozen, or else the newest
      SELECT figures, installer_id FROM installer_submissions WHERE house_id = r.house_id
      ORDER BY (revision = r.figures_revision) IS TRUE DESC, frozen_at IS NULL,
        CASE WHEN frozen_at IS NULL THEN -revision ELSE revision END LIMIT 1) s ON true
    LEFT JOIN LATERAL (
      SELECT (x.verdict #>> '{headline,value}')::float8 AS value, (x.verdict #>> '{headline,low}')::float8 AS low,
        (x.verdict #>> '{headline,high}')::float8 AS high
      FROM item_results x WHERE x.house_id = r.house_id AND x.item = ${itemOf}
        AND x.subject_id IN (r.subject_id, 'house')
        -- what a second rater read decided nothing
        AND NOT EXISTS (SELECT 1 FROM visits q WHERE q.id = r.visit_id AND q.kind = 'quality')
      LIMIT 1) v ON true
    ORDER BY r.taken_at, r.id`;
}

/** Where houses are, and where a reader finds them. */
export interface PlaceRow {
  id: string;
  address: string;
  lot: string;
  latitude: number | null;
  longitude: number | null;
}

export function readPlaces(db: Db, houseIds: string[]): Promise<PlaceRow[]> {
  return db.$queryRaw<PlaceRow[]>`
    SELECT h.id, h.address, h.lot, coalesce(h.latitude, c.latitude) AS latitude,
      coalesce(h.longitude, c.longitude) AS longitude
    FROM houses h JOIN communities c ON c.id = h.community_id WHERE h.id = ANY(${houseIds}::uuid[])`;
}

/** Raters with any reading in the period. */
export async function ratersOf(
  db: Db,
  { from, to, timezone }: Period,
): Promise<{ id: string; name: string }[]> {
  return db.$queryRaw<{ id: string; name: string }[]>`
    SELECT u.id, u.name FROM users u WHERE EXISTS (
      SELECT 1 FROM readings r WHERE r.taken_by_id = u.id
        AND r.taken_at >= (${from}::date)::timestamp AT TIME ZONE ${timezone}
        AND r.taken_at < (${to}::date + 1)::timestamp AT TIME ZONE ${timezone})
    ORDER BY u.name, u.id`;
}
