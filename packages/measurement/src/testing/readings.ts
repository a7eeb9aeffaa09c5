import type { InstrumentFacts, RawReading, TestDefinition, TestKey, TestOutcome } from '../types.ts';
import { testDefinitions } from '../tests/registry.ts';
import {
  analyzer,
  blowerDoor,
  coMonitor,
  ductTester,
  flowHood,
  flowMeter,
  manometer,
  stopwatch,
} from './instruments.ts';

type Row = { label?: string; values?: Record<string, number>; choices?: Record<string, string> };
type Part = { values?: Record<string, number>; choices?: Record<string, string>; rows?: Row[] };

/** A reading of a test with every confirmation ticked. */
function reading(test: TestDefinition, part: Part): RawReading {
  return {
    values: part.values ?? {},
    choices: part.choices ?? {},
    rows: (part.rows ?? []).map(({ label = '', values = {}, choices = {} }) => ({ label, values, choices })),
    confirmations: Object.fromEntries(test.confirmations.map(({ key }) => [key, true])),
  };
}

/** The result values of an outcome by key, or its problem codes under `refused`. */
export function results(outcome: TestOutcome): Record<string, number | string> {
  if (!outcome.ok) return { refused: outcome.problems.map(({ path, code }) => `${path} ${code}`).join('; ') };
  return Object.fromEntries(outcome.values.map(({ key, value }) => [key, value]));
}

/** The message of the first problem; empty when there was none. */
export function firstMessage(outcome: TestOutcome): string {
  return outcome.ok ? '' : (outcome.problems[0]?.message ?? '');
}

/** A good reading of every test and an instrument that fits. */
export const goodReadings: Record<TestKey, { part: Part; instrument: InstrumentFacts }> = {
  'supply-static': { part: { values: { pressure: 0.092 } }, instrument: manometer },
  'return-static': { part: { values: { pressure: -0.11 } }, instrument: manometer },
  'bedroom-pressure': { part: { values: { pressure: 2.4 } }, instrument: manometer },
  'bedroom-relief': {
    part: {
      values: { supplyFlow: 100 },
      rows: [
        { label: 'Over the door', values: { freeArea: 50 }, choices: { kind: 'grille' } },
        { values: { width: 32, height: 1 }, choices: { kind: 'door-undercut' } },
      ],
    },
    instrument: flowHood,
  },
  'duct-leakage-rough': { part: { values: { ductPressure: 25, flow: 72 } }, instrument: ductTester },
  'duct-leakage-total': { part: { values: { ductPressure: 15, flow: 70 } }, instrument: ductTester },
  'duct-leakage-outdoors': {
    part: {
      values: { housePressure: 25, ductToHousePressure: 0.1, fanPressure: 100 },
      choices: { range: 'small' },
    },
    instrument: ductTester,
  },
  'ventilator-duct-leakage': { part: { values: { ductPressure: -25, flow: 8 } }, instrument: ductTester },
  'envelope-leakage': {
    part: { values: { baselineBefore: -2 }, rows: [{ values: { housePressure: -38, flow: 1100 } }] },
    instrument: blowerDoor,
  },
  'whole-house-ventilation': {
    part: {
      rows: [
        { values: { flow: 71 }, choices: { airstream: 'supply' } },
        { values: { flow: 40 }, choices: { airstream: 'exhaust' } },
        { values: { flow: 33 }, choices: { airstream: 'exhaust' } },
      ],
    },
    instrument: flowMeter,
  },
  'kitchen-exhaust': {
    part: {
      choices: { mode: 'intermittent' },
      rows: [
        { values: { flow: 56 }, choices: { deviceRange: 'widest' } },
        { values: { flow: 50 }, choices: { deviceRange: 'widest' } },
      ],
    },
    instrument: flowMeter,
  },
  'bath-exhaust': {
    part: {
      choices: { mode: 'continuous' },
      rows: [{ values: { flow: 24 }, choices: { deviceRange: 'middle' } }],
    },
    instrument: flowMeter,
  },
  'ambient-carbon-monoxide': { part: { values: { carbonMonoxide: 2 } }, instrument: coMonitor },
  spillage: {
    part: { values: { seconds: 40 }, choices: { vent: 'cold', ended: 'stopped' } },
    instrument: stopwatch,
  },
  depressurization: { part: { values: { baseline: -1.2, worstCase: -3.7 } }, instrument: manometer },
  'flue-carbon-monoxide': { part: { values: { carbonMonoxide: 50, oxygen: 9 } }, instrument: analyzer },
};

/** The outcome of a test on a reading; the good reading of the test where a part is left out. */
export function outcomeOf(key: TestKey, part?: Part, instrument?: InstrumentFacts | null): TestOutcome {
  const test = testDefinitions[key];
  const good = goodReadings[key];
  return test.compute(
    reading(test, part ?? good.part),
    instrument === undefined ? good.instrument : instrument,
  );
}
