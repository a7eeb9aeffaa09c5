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

const stages = {
  released: Prisma.sql`h.stage = 'released'`,
  submitted: Prisma.sql`h.stage IN ('in_review', 'returned')`,
  both: Prisma.sql`h.stage IN ('in_review', 'returned', 'released')`,
};

const done = {
  'file-review': Prisma.sql`AND NOT EXISTS (SELECT 1 FROM file_reviews d
    WHERE d.house_id = h.id AND d.revision = h.revision AND d.state <> 'withdrawn')`,
  'field-retest': Prisma.sql`AND NOT EXISTS (SELECT 1 FROM retests d
    WHERE d.house_id = h.id AND d.state <> 'withdrawn')`,
};

/**
 * The files that answer to a filter. A file is the rater's who took most of the readings that stand, as everywhere in
 * quality assurance; its kind is that of the rater's visit, its day that of the release or, before that, of the
 * submission, by the company's clock.
 */
export async function filesOf(
  db: Db,
  filter: PopulationFilter,
  purpose: DrawPurpose,
  timezone: string,
): Promise<File[]> {
  const { from, to, state, raterId, builderId, kind, leaveOutDone } = filter;
  const when = (condition: unknown, sql: Prisma.Sql) => (condition ? sql : Prisma.empty);
  return db.$queryRaw<File[]>`
    SELECT * FROM (
      SELECT h.id::text AS id, v.rater_id::text AS rater, h.builder_id::text AS builder, v.kind::text AS kind,
        to_char(coalesce(r.released_at, v.submitted_at, v.starts_at) AT TIME ZONE ${timezone}, 'YYYY-MM-DD') AS date,
        EXISTS (SELECT 1 FROM failed_items f WHERE f.house_id = h.id) AS "failedFirst"
      FROM houses h
      JOIN LATERAL (
        SELECT v.rater_id, v.kind, v.submitted_at, v.starts_at FROM visits v
        LEFT JOIN LATERAL (
          SELECT count(*) AS taken FROM readings r
          WHERE r.visit_id = v.id AND NOT EXISTS (SELECT 1 FROM readings n WHERE n.supersedes_id = r.id)
        ) c ON true
        WHERE v.house_id = h.id AND v.kind <> 'quality' AND v.state = 'submitted'
        ORDER BY c.taken DESC, v.submitted_at DESC NULLS LAST, v.id LIMIT 1
      ) v ON true
      LEFT JOIN releases r ON r.house_id = h.id AND r.revision = h.revision AND h.stage = 'released'
      WHERE ${stages[state]}
      ${when(builderId, Prisma.sql`AND h.builder_id = ${builderId}::uuid`)}
      ${when(leaveOutDone, done[purpose])}
    ) files
    WHERE true
    ${when(from, Prisma.sql`AND date >= ${from}`)}
    ${when(to, Prisma.sql`AND date <= ${to}`)}
    ${when(raterId, Prisma.sql`AND rater = ${raterId}`)}
    ${when(kind, Prisma.sql`AND kind = ${kind}`)}`;
}
