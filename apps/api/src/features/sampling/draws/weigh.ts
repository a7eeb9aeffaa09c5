import type { WeighingReason } from '@countercheck/contracts';
import type { FrameRow } from '@countercheck/sampling';
import type { Db } from '../../../kernel/database/database.ts';
import type { File } from '../../population/index.ts';

const fewFiles = 20;

interface Known {
  raters: Set<string>;
  builders: Set<string>;
  files: Map<string, number>;
  pairs: Set<string>;
}

async function whatIsKnown(db: Db): Promise<Known> {
  const open = await db.correctiveAction.findMany({
    where: { state: 'open', restoredAt: null },
    select: { raterId: true, builderId: true },
  });
  const counts = await db.$queryRaw<{ rater: string; files: number }[]>`
    SELECT rater_id::text AS rater, count(DISTINCT house_id)::int AS files FROM visits
    WHERE state = 'submitted' AND kind <> 'quality' GROUP BY rater_id`;
  const pairs = await db.$queryRaw<{ rater: string; builder: string }[]>`
    SELECT DISTINCT r.rater_id::text AS rater, h.builder_id::text AS builder
    FROM file_reviews r JOIN houses h ON h.id = r.house_id WHERE r.state IN ('done', 'appealed')`;
  return {
    raters: new Set(open.flatMap(({ raterId }) => raterId ?? [])),
    builders: new Set(open.flatMap(({ builderId }) => builderId ?? [])),
    files: new Map(counts.map(({ rater, files }) => [rater, files])),
    pairs: new Set(pairs.map(({ rater, builder }) => `${rater} ${builder}`)),
  };
}

/** Gives each file its points; one point each where the draw does not weigh. */
export async function weighed(
  db: Db,
  files: readonly File[],
  points: Record<WeighingReason, number> | null,
): Promise<FrameRow[]> {
  const known = points && (await whatIsKnown(db));
  return files.map(({ failedFirst, ...file }) => {
    if (!points || !known) return { ...file, weight: 1 };
    const { rater, builder } = file;
    let weight = points.base;
    if (known.raters.has(rater) || known.builders.has(builder)) weight += points.corrective;
    if ((known.files.get(rater) ?? 0) < fewFiles) weight += points.newRater;
    if (!known.pairs.has(`${rater} ${builder}`)) weight += points.newPair;
    if (failedFirst) weight += points.failedFirst;
    return { ...file, weight };
  });
}
