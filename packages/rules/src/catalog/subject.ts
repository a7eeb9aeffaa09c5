import type { SubjectKind } from '@countercheck/measurement';
import type { Entry, EntryKind } from './entry.ts';

function entry(
  key: string,
  subjects: readonly SubjectKind[],
  kind: EntryKind,
  label: string,
  values?: readonly string[],
): Entry {
  const base: Entry = { name: `subject.${key}`, from: 'subject', label, kind, subjects };
  return values ? { ...base, values } : base;
}

/** What is known of one system, room, ventilator or appliance, from the house's file. */
export const subjectEntries: readonly Entry[] = [
  entry('hasDucts', ['system'], 'yes-no', 'the system has ducts'),
  entry(
    'ductsInside',
    ['system'],
    'yes-no',
    'its ducts and air handler are visibly inside conditioned space',
  ),
  entry('designAirflow', ['system'], 'airflow', 'designed airflow'),
  entry('supplyFlow', ['bedroom'], 'airflow', 'supply airflow of the room'),
  entry('volume', ['bedroom', 'bath', 'kitchen'], 'volume', 'volume of the room'),
  entry('ducted', ['ventilator'], 'yes-no', 'the ventilator has ducts of its own'),
  entry('applianceKind', ['appliance'], 'text', 'kind of appliance', [
    'furnace',
    'boiler',
    'water-heater',
    'fireplace',
    'room-heater',
    'range',
    'dryer',
  ]),
  entry('fuel', ['appliance'], 'text', 'fuel', ['natural-gas', 'propane', 'oil', 'wood', 'electric']),
  entry('venting', ['appliance'], 'text', 'venting', [
    'atmospheric',
    'fan-assisted',
    'power-vented',
    'direct-vent',
    'unvented',
    'none',
  ]),
];
