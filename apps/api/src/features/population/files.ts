import type { DrawPurpose, PopulationFilter } from '@countercheck/contracts';
import { Prisma } from '@countercheck/prisma';
import type { Db } from '../../kernel/database/database.ts';

/** A file as it may be drawn: whose work it is, of which kind, and when it was finished. */
export interface File {
  id: string;
  rater: string;
  builder: string;
  kind: string;
  date: string;
  /** something failed when it was first measured */
  failedFirst: boolean;
}

/** How many files of a population are of one rater, builder and kind. */
export type Counted = Pick<File, 'rater' | 'builder' | 'kind'> & { files: number };

const done = {
  'file-review': Prisma.sql`AND NOT EXISTS (SELECT 1 FROM file_reviews d
    WHERE d.house_id = h.id AND d.revision = h.revision AND d.state <> 'withdrawn')`,
  'field-retest': Prisma.sql`AND NOT EXISTS (SELECT 1 FROM retests d
    WHERE d.house_id = h.id AND d.state <> 'withdrawn')`,
};
const when = (condition: unknown, sql: Prisma.Sql) => (condition ? sql : Prisma.empty);

/** On the company's days asked about; written so that an index on the instant can serve. */
const within = (instant: Prisma.Sql, { from, to }: PopulationFilter, timezone: string) => Prisma.sql`
  ${when(from, Prisma.sql`AND ${instant} >= ${from}::date::timestamp AT TIME ZONE ${timezone}`)}
  ${when(to, Prisma.sql`AND ${instant} < (${to}::date + 1)::timestamp AT TIME ZONE ${timezone}`)}`;

/**
 * The files that answer to a filter. A file is the rater's who took most of the readings that stand, as everywhere in
 * quality assurance; its kind is that of the rater's visit, its day that of the release or, before that, of the
 * submission, by the company's clock. Readings are counted only where a house was visited more than once.
 */
function filesThat(filter: PopulationFilter, purpose: DrawPurpose, timezone: string): Prisma.Sql {
  const { state, raterId, builderId, kind, leaveOutDone } = filter;
  const whose = Prisma.sql`
    ${when(builderId, Prisma.sql`AND h.builder_id = ${builderId}::uuid`)}
    ${when(leaveOutDone, done[purpose])}`;
  const released = Prisma.sql`
    SELECT h.id, h.builder_id, r.released_at FROM releases r JOIN houses h ON h.id = r.house_id AND h.revision = r.revision
    WHERE h.stage = 'released' ${within(Prisma.sql`r.released_at`, filter, timezone)} ${whose}`;
  const submitted = Prisma.sql`
    SELECT h.id, h.builder_id, NULL::timestamptz AS released_at FROM houses h WHERE h.stage IN ('in_review', 'returned') ${whose}`;
  const of = { released, submitted, both: Prisma.sql`${released} UNION ALL ${submitted}` }[state];
  return Prisma.sql`
    WITH asked AS MATERIALIZED (${of}), candidates AS MATERIALIZED (
      SELECT a.builder_id, a.released_at, v.id, v.house_id, v.rater_id, v.kind, v.submitted_at, v.starts_at,
        count(*) OVER (PARTITION BY v.house_id) AS visits
      FROM asked a JOIN visits v ON v.house_id = a.id WHERE v.kind <> 'quality' AND v.state = 'submitted'
    ), taken AS (
      SELECT r.visit_id, count(*) AS readings FROM readings r
      WHERE r.visit_id IN (SELECT id FROM candidates WHERE visits > 1)
        AND NOT EXISTS (SELECT 1 FROM readings n WHERE n.supersedes_id = r.id)
      GROUP BY r.visit_id
    ), own AS (
      SELECT DISTINCT ON (c.house_id) c.house_id, c.rater_id, c.builder_id, c.kind,
        coalesce(c.released_at, c.submitted_at, c.starts_at) AS finished_at
      FROM candidates c LEFT JOIN taken t ON t.visit_id = c.id
      ORDER BY c.house_id, coalesce(t.readings, 0) DESC, c.submitted_at DESC NULLS LAST, c.id
    ), files AS (
      SELECT * FROM own WHERE true ${within(Prisma.sql`finished_at`, filter, timezone)}
      ${when(raterId, Prisma.sql`AND rater_id = ${raterId}::uuid`)}
      ${when(kind, Prisma.sql`AND kind = ${kind}::visit_kind`)}
    )`;
}

export function filesOf(
  db: Db,
  filter: PopulationFilter,
  purpose: DrawPurpose,
  timezone: string,
): Promise<File[]> {
  return db.$queryRaw<File[]>`${filesThat(filter, purpose, timezone)}
    SELECT house_id::text AS id, rater_id::text AS rater, builder_id::text AS builder, kind::text AS kind,
      to_char(finished_at AT TIME ZONE ${timezone}, 'YYYY-MM-DD') AS date,
      EXISTS (SELECT 1 FROM failed_items f WHERE f.house_id = files.house_id) AS "failedFirst"
    FROM files`;
}

/** As `filesOf`, counted by the database. */
export function countFiles(
  db: Db,
  filter: PopulationFilter,
  purpose: DrawPurpose,
  timezone: string,
): Promise<Counted[]> {
  return db.$queryRaw<Counted[]>`${filesThat(filter, purpose, timezone)}
    SELECT rater_id::text AS rater, builder_id::text AS builder, kind::text AS kind, count(*)::int AS files
    FROM files GROUP BY rater_id, builder_id, kind`;
}
