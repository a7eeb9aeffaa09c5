import type { Value } from '@countercheck/rules';
import { ventilatorHasDucts } from '../subjects.ts';
import type { HouseFile } from '../types.ts';

type Appliance = HouseFile['appliances'][number];

const burns = (each: Appliance) => each.fuel !== 'electric';

/** A positive number, or null: a designed rate of zero is a rate that nobody has entered. */
export function positive(value: number | null): number | null {
  return value !== null && Number.isFinite(value) && value > 0 ? value : null;
}

function roughIn(file: HouseFile): boolean | null {
  const ducted = file.systems.filter((each) => each.hasDucts);
  if (ducted.some((each) => each.airHandlerAtRough === false)) return false;
  return ducted.length > 0 && ducted.every((each) => each.airHandlerAtRough === true) ? true : null;
}

/** The named quantities `house.*`, in stored units; null where the file does not say. */
export function houseFacts(file: HouseFile): Record<string, Value> {
  const { house, systems, appliances } = file;
  const ducted = systems.filter((each) => each.hasDucts);
  return {
    conditionedFloorArea: positive(house.conditionedFloorAreaFt2),
    conditionedVolume: positive(house.conditionedVolumeFt3),
    bedrooms: house.bedrooms,
    storeys: house.storeys,
    climateZone: house.climateZone === '' ? null : house.climateZone,
    foundation: house.foundation,
    ventilationKind: house.ventilationKind,
    ventilatorDucted: ventilatorHasDucts(file),
    designedVentilation: positive(house.designedVentilationCfm),
    hasDucts: ducted.length > 0,
    allDuctsInside: ducted.length > 0 && ducted.every((each) => each.ductsInside),
    airHandlerAtRough: roughIn(file),
    hasAtmosphericAppliance: appliances.some((each) => burns(each) && each.venting === 'atmospheric'),
    hasFanAssistedAppliance: appliances.some((each) => burns(each) && each.venting === 'fan-assisted'),
    hasPowerVentedAppliance: appliances.some((each) => burns(each) && each.venting === 'power-vented'),
    hasFireplace: appliances.some(
      (each) => each.kind === 'fireplace' && burns(each) && each.venting !== 'direct-vent',
    ),
    // a fuel-burning appliance entered without any venting gives its flue gas to the room
    hasUnventedAppliance: appliances.some(
      (each) => burns(each) && (each.venting === 'unvented' || each.venting === 'none'),
    ),
  };
}
