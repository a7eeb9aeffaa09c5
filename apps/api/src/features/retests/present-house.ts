import type { Prisma } from '@countercheck/prisma';
import type { RetestSummary } from '@countercheck/contracts';

const named = { select: { id: true, name: true } };

/** What a quality record says of the house it is about. */
export const qualityHouse = {
  select: {
    id: true,
    address: true,
    lot: true,
    stage: true,
    community: { select: { name: true } },
    builder: named,
  },
} satisfies Prisma.HouseDefaultArgs;

export function presentQualityHouse(
  house: Prisma.HouseGetPayload<typeof qualityHouse>,
): RetestSummary['house'] {
  return { ...house, community: house.community.name };
}
