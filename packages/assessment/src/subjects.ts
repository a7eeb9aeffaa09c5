import type { SubjectKind } from '@countercheck/measurement';
import type { HouseFile } from './types.ts';

/** One thing in the house that a test can be done on. */
export interface Subject {
  id: string;
  kind: SubjectKind;
  label: string;
}

/** The id under which the house itself and the sums over its systems stand. */
export const houseId = 'house';
/** The id of the whole-house ventilation: a house has one. */
export const ventilatorId = 'ventilator';

const ventilatorLabels = {
  balanced: 'Balanced ventilation unit',
  exhaust: 'Exhaust ventilation',
  supply: 'Supply ventilation',
} as const;

/**
 * Every subject of a house, in the order of its file: the house, its systems, its rooms, its whole-house
 * ventilation unless there is none, its appliances.
 */
export function subjectsOf(file: Pick<HouseFile, 'house' | 'systems' | 'rooms' | 'appliances'>): Subject[] {
  const { ventilationKind } = file.house;
  const ventilator: Subject[] =
    ventilationKind === 'none'
      ? []
      : [{ id: ventilatorId, kind: 'ventilator', label: ventilatorLabels[ventilationKind] }];
  return [
    { id: houseId, kind: 'house', label: 'House' },
    ...file.systems.map(({ id, label }): Subject => ({ id, kind: 'system', label })),
    ...file.rooms.map(({ id, label, kind }): Subject => ({ id, kind, label })),
    ...ventilator,
    ...file.appliances.map(({ id, label }): Subject => ({ id, kind: 'appliance', label })),
  ];
}

/** True when a balanced unit has ducts of its own, which count towards the total leakage. */
export function ventilatorHasDucts({ house }: Pick<HouseFile, 'house'>): boolean {
  return house.ventilationKind === 'balanced' && house.ventilatorDucted;
}
