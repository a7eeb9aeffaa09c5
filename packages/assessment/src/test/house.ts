import {
  testDefinitions,
  type InstrumentFacts,
  type InstrumentKind,
  type RawReading,
  type TestKey,
} from '@countercheck/measurement';
import { loadRuleSet } from '@countercheck/rules/load';
import type { FileReading, HouseFile } from '../types.ts';

const texts = import.meta.glob('../../../rules/sets/common-practice/2026.1/*.yaml', {
  query: '?raw',
  import: 'default',
  eager: true,
});

/** The shipped common-practice set, for tests. */
export const commonPractice = loadRuleSet(Object.entries(texts).map(([path, text]) => ({ path, text })));

/** An instrument in calibration all through 2026, for tests. */
function instrument(kind: InstrumentKind, dueOn = '2026-12-31'): InstrumentFacts {
  return {
    id: kind,
    kind,
    label: `The ${kind}`,
    accuracyPercent: 1,
    accuracyAbsolute: 0.1,
    resolution: null,
    calibratedOn: '2026-01-01',
    dueOn,
    ranges: [],
  };
}

let count = 0;

/** One reading with every confirmation ticked, for tests. */
export function reading(
  test: TestKey,
  subjectId: string,
  kind: InstrumentKind,
  raw: Partial<RawReading>,
  more: Partial<FileReading> = {},
): FileReading {
  count += 1;
  const id = `reading-${String(count).padStart(4, '0')}`;
  const confirmations = Object.fromEntries(
    testDefinitions[test].confirmations.map((each) => [each.key, true]),
  );
  const whole = { values: {}, choices: {}, rows: [], confirmations, ...raw };
  return {
    id,
    test,
    subjectId,
    raw: whole,
    instrument: instrument(kind),
    takenOn: '2026-06-01',
    visitId: 'visit',
    ...more,
  };
}

/** A house of 2,000 ft² with two ducted systems, a balanced unit, a kitchen, a bath and a bedroom. */
export const plainFile: HouseFile = {
  house: {
    conditionedFloorAreaFt2: 2000,
    conditionedVolumeFt3: 16000,
    bedrooms: 1,
    storeys: 1,
    climateZone: '5A',
    foundation: 'slab',
    ventilationKind: 'balanced',
    ventilatorDucted: true,
    designedVentilationCfm: 70,
  },
  systems: [
    { id: 'down', label: 'Downstairs', hasDucts: true, ductsInside: true, designAirflowCfm: 1000 },
    { id: 'up', label: 'Upstairs', hasDucts: true, ductsInside: true, designAirflowCfm: 800 },
  ],
  rooms: [
    { id: 'bed-1', label: 'Bedroom 1', kind: 'bedroom', supplyFlowCfm: 100, volumeFt3: null },
    { id: 'bath-1', label: 'Bath', kind: 'bath', supplyFlowCfm: null, volumeFt3: null },
    { id: 'kitchen-1', label: 'Kitchen', kind: 'kitchen', supplyFlowCfm: null, volumeFt3: null },
  ],
  appliances: [
    { id: 'wh', label: 'Water heater', kind: 'water-heater', fuel: 'natural-gas', venting: 'atmospheric' },
    { id: 'dryer', label: 'Dryer', kind: 'dryer', fuel: 'electric', venting: 'none' },
  ],
  reported: { down: { supplyStatic: 0.085, returnStatic: 0.15 } },
  hidden: [],
  readings: [],
};
