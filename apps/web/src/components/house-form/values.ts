import type { HouseParts, Plan } from '@countercheck/contracts';

/** The figures of a house or plan as a form holds them: a number not entered yet is null. */
export interface HouseFigures {
  conditionedFloorArea: number | null;
  conditionedVolume: number | null;
  bedrooms: number | null;
  storeys: number | null;
  foundation: string;
  ventilationKind: string;
  ventilatorDucted: boolean;
  designedVentilation: number | null;
}

export const emptyFigures: HouseFigures = {
  conditionedFloorArea: null,
  conditionedVolume: null,
  bedrooms: null,
  storeys: 1,
  foundation: 'slab',
  ventilationKind: 'exhaust',
  ventilatorDucted: false,
  designedVentilation: null,
};

export const emptyParts: HouseParts = { systems: [], rooms: [], appliances: [] };

const withoutIds = <Part extends { id?: string | undefined }>(parts: readonly Part[]) =>
  parts.map(({ id: _, ...rest }) => rest);

/** A plan's parts for a house of its own: the same parts, but new ones. */
export function partsOfPlan(plan: Pick<Plan, 'parts'>): HouseParts {
  return {
    systems: withoutIds(plan.parts.systems),
    rooms: withoutIds(plan.parts.rooms),
    appliances: withoutIds(plan.parts.appliances),
  };
}

export function figuresOf(source: HouseFigures): HouseFigures {
  const keys = Object.keys(emptyFigures) as (keyof HouseFigures)[];
  return Object.fromEntries(keys.map((key) => [key, source[key]])) as unknown as HouseFigures;
}
