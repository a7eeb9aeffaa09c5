import type { houses, HouseDetail, HouseParts, Plan } from '@countercheck/contracts';
import {
  emptyFigures,
  emptyParts,
  figuresOf,
  partsOfPlan,
  type HouseFigures,
} from '../../../components/house-form/index.ts';
import type { BodyOf } from '../../../lib/client.ts';

/** The fields of a house as the form holds them. */
export interface HouseValues extends HouseFigures, Record<string, unknown> {
  builderId: string | null;
  communityId: string | null;
  planId: string | null;
  address: string;
  lot: string;
  climateZone: string | null;
  ruleSetId: string | null;
  note: string;
  latitude: number | null;
  longitude: number | null;
  parts: HouseParts;
}

export const emptyHouse: HouseValues = {
  builderId: null,
  communityId: null,
  planId: null,
  address: '',
  lot: '',
  climateZone: null,
  ruleSetId: null,
  note: '',
  latitude: null,
  longitude: null,
  ...emptyFigures,
  parts: emptyParts,
};

export function valuesOf(house: HouseDetail): HouseValues {
  const { systems, rooms, appliances } = house;
  return {
    builderId: house.builder.id,
    communityId: house.community.id,
    planId: house.plan?.id ?? null,
    address: house.address,
    lot: house.lot,
    climateZone: house.climateZone,
    ruleSetId: house.ruleSet.id,
    note: house.note ?? '',
    latitude: house.latitude,
    longitude: house.longitude,
    ...figuresOf(house),
    parts: { systems, rooms, appliances },
  };
}

/** What a plan fills in; the rest of the form stays. */
export function filledByPlan(plan: Plan): Partial<HouseValues> {
  return { ...figuresOf(plan), parts: partsOfPlan(plan) };
}

/** The contract's body. The builder only narrows the choice of community and is not sent. */
export function bodyOfHouse(values: HouseValues): BodyOf<typeof houses.register> {
  const { builderId: _, ruleSetId, ...rest } = values;
  return { ...rest, ...(ruleSetId ? { ruleSetId } : {}) } as BodyOf<typeof houses.register>;
}
