import { subjectKinds } from '@countercheck/measurement';
import type { Entry, EntryKind } from './entry.ts';

function entry(key: string, kind: EntryKind, label: string, values?: readonly string[]): Entry {
  const base: Entry = { name: `house.${key}`, from: 'house', label, kind, subjects: subjectKinds };
  return values ? { ...base, values } : base;
}

/** What is known of the house itself, from its file. */
export const houseEntries: readonly Entry[] = [
  entry('conditionedFloorArea', 'floorArea', 'conditioned floor area'),
  entry('conditionedVolume', 'volume', 'conditioned volume'),
  entry('bedrooms', 'count', 'number of bedrooms'),
  entry('storeys', 'count', 'number of storeys'),
  entry('climateZone', 'text', 'climate zone'),
  entry('foundation', 'text', 'foundation'),
  entry('ventilationKind', 'text', 'kind of whole-house ventilation', [
    'none',
    'exhaust',
    'supply',
    'balanced',
  ]),
  entry('ventilatorDucted', 'yes-no', 'the ventilator has ducts of its own'),
  entry('designedVentilation', 'airflow', 'designed whole-house ventilation rate'),
  entry('hasDucts', 'yes-no', 'a heating or cooling system has ducts'),
  entry('allDuctsInside', 'yes-no', 'all ducts and air handlers visibly inside conditioned space'),
  entry('airHandlerAtRough', 'yes-no', 'every air handler was in place at the rough-in test'),
  entry('hasAtmosphericAppliance', 'yes-no', 'an appliance is vented by natural draft'),
  entry(
    'hasFanAssistedAppliance',
    'yes-no',
    'an appliance with a fan before its vent takes its air from the rooms',
  ),
  entry('hasPowerVentedAppliance', 'yes-no', 'an appliance with a fan that pushes through its vent'),
  entry('hasFireplace', 'yes-no', 'a fireplace takes its air from the house'),
  entry('hasUnventedAppliance', 'yes-no', 'a fuel-burning appliance is not vented'),
];
