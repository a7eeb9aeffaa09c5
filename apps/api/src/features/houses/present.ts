import type { Prisma } from '@countercheck/prisma';
import type { HouseDetail, HouseSummary } from '@countercheck/contracts';

const named = { select: { id: true, name: true } };
const byPosition = { orderBy: [{ position: 'asc' as const }, { id: 'asc' as const }] };

/** What a house is read with wherever one is listed. */
export const houseSummaryInclude = {
  builder: named,
  community: named,
  plan: named,
  _count: { select: { failedItems: { where: { state: { not: 'closed' as const } } } } },
} satisfies Prisma.HouseInclude;

export const houseDetailInclude = {
  ...houseSummaryInclude,
  ruleSet: { select: { id: true, key: true, version: true, title: true } },
  systems: byPosition,
  rooms: byPosition,
  appliances: byPosition,
} satisfies Prisma.HouseInclude;

export type HouseSummaryRow = Prisma.HouseGetPayload<{ include: typeof houseSummaryInclude }>;
export type HouseDetailRow = Prisma.HouseGetPayload<{ include: typeof houseDetailInclude }>;

export function presentHouseSummary(row: HouseSummaryRow): HouseSummary {
  const { id, address, lot, stage, builder, community, plan, conditionedFloorArea, revision } = row;
  return {
    id,
    address,
    lot,
    stage,
    builder,
    community,
    plan,
    climateZone: row.climateZone as HouseSummary['climateZone'],
    conditionedFloorArea,
    openFailedItems: row._count.failedItems,
    revision,
    updatedAt: row.updatedAt.toISOString(),
  };
}

/** What the contract does not name is left out when the answer is written. */
export function presentHouse(row: HouseDetailRow, counts: HouseDetail['counts']) {
  return {
    ...row,
    ...presentHouseSummary(row),
    createdAt: row.createdAt.toISOString(),
    appliances: row.appliances as unknown as HouseDetail['appliances'],
    counts,
  };
}
