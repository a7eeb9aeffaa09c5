import type { Replay, ReplayHouse, ReplayResult, ReplaySummary } from '@countercheck/contracts';
import type { Prisma } from '@countercheck/prisma';
import type { Db } from '../../kernel/database/database.ts';
import { presentRun } from '../../kernel/runs/ask.ts';
import type { ReplayFilter } from './select-houses.ts';

const ruleSetName = { select: { id: true, key: true, version: true, title: true } };
export const replayParts = { run: true, ruleSet: ruleSetName } satisfies Prisma.ReplayInclude;
export type ReplayRow = Prisma.ReplayGetPayload<{ include: typeof replayParts }>;

export const replayHouseParts = {
  house: { include: { builder: { select: { name: true } }, community: { select: { name: true } } } },
} satisfies Prisma.ReplayHouseInclude;
type HouseRow = Prisma.ReplayHouseGetPayload<{ include: typeof replayHouseParts }>;

export function presentSummary(row: ReplayRow): ReplaySummary {
  const result = row.result as unknown as ReplayResult | null;
  return {
    ...presentRun(row.run),
    ruleSet: row.ruleSet,
    note: row.note,
    affected: result?.affected ?? null,
    reinspections: result ? result.reinspectionsAfter - result.reinspectionsBefore : null,
  };
}

export async function presentReplay(db: Db, row: ReplayRow): Promise<Replay> {
  const { from, to, stage, builderId, communityId, ruleSetId } = row.filter as unknown as ReplayFilter;
  const name = { id: true, name: true };
  const one = <T>(id: string | null, find: (where: { id: string }) => Promise<T | null>) =>
    id === null ? null : find({ id });
  return {
    ...presentSummary(row),
    filter: {
      ...{ from, to, stage },
      builder: await one(builderId, (where) => db.builder.findUnique({ where, select: name })),
      community: await one(communityId, (where) => db.community.findUnique({ where, select: name })),
      ruleSet: await one(ruleSetId, (where) => db.ruleSet.findUnique({ where, ...ruleSetName })),
    },
    result: row.result as unknown as ReplayResult | null,
  };
}

export function presentReplayHouse(row: HouseRow, raters: ReadonlyMap<string, string>): ReplayHouse {
  const { id, address, lot, stage, builder, community } = row.house;
  return {
    ...{ id, address, lot, stage },
    community: community.name,
    builder: builder.name,
    rater: (row.raterId && raters.get(row.raterId)) ?? null,
    reinspection: row.reinspection,
    changes: row.changes as ReplayHouse['changes'],
  };
}
