import type { BuilderContact, Plan as PlanRow, Prisma } from '@countercheck/prisma';
import {
  housePartsSchema,
  type Builder,
  type Community,
  type MailKind,
  type Plan,
} from '@countercheck/contracts';

/** What a builder's row is read with, so that its counts come from the database in the same query. */
export const builderCounts = {
  _count: { select: { communities: true, houses: true } },
} satisfies Prisma.BuilderInclude;
export type BuilderRow = Prisma.BuilderGetPayload<{ include: typeof builderCounts }>;

export const communityCounts = { _count: { select: { houses: true } } } satisfies Prisma.CommunityInclude;
export const planCounts = { _count: { select: { houses: true } } } satisfies Prisma.PlanInclude;
export type CommunityRow = Prisma.CommunityGetPayload<{ include: typeof communityCounts }>;
export type PlanWithCounts = PlanRow & { _count: { houses: number } };

export function presentBuilder(row: BuilderRow, openFailedItems: number): Builder {
  const { id, name, phone, address, note, active } = row;
  return {
    id,
    name,
    phone,
    address,
    note,
    active,
    communities: row._count.communities,
    houses: row._count.houses,
    openFailedItems,
  };
}

export function presentContact(row: BuilderContact) {
  const { id, name, duty, email, phone, notify } = row;
  return { id, name, duty, email, phone, notify, mutedMail: row.mutedMail as MailKind[] };
}

export function presentCommunity(row: CommunityRow): Community {
  const { id, builderId, name, jurisdiction, latitude, longitude } = row;
  const climateZone = row.climateZone as Community['climateZone'];
  return { id, builderId, name, jurisdiction, climateZone, latitude, longitude, houses: row._count.houses };
}

export function presentPlan({ _count, parts, ...row }: PlanWithCounts): Plan {
  return { ...row, parts: housePartsSchema.parse(parts), houses: _count.houses };
}
