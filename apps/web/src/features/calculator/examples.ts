import { testDefinition, type TestKey } from '@countercheck/measurement';
import type { EnteredForm } from '../../components/reading-form/index.ts';

interface Numbers {
  values?: Record<string, string>;
  choices?: Record<string, string>;
  rows?: { values: Record<string, string>; choices?: Record<string, string> }[];
}

const us = (values: Record<string, string> = {}): EnteredForm['typed'] =>
  Object.fromEntries(Object.entries(values).map(([key, text]) => [key, { text, system: 'us' }]));

function filled(test: TestKey, { values, choices, rows }: Numbers): EnteredForm {
  const { rows: asked, confirmations } = testDefinition(test);
  return {
    typed: us(values),
    choices: { ...choices },
    rows: (rows ?? []).map((row, i) => ({
      key: `example-${i}`,
      label: `${asked?.rowLabel ?? ''} ${i + 1}`.trim(),
      typed: us(row.values),
      choices: { ...row.choices },
    })),
    confirmations: Object.fromEntries(confirmations.map(({ key }) => [key, true])),
  };
}

const point = (housePressure: string, flow: string) => ({ values: { housePressure, flow } });
const inlet = (flow: string) => ({ values: { flow }, choices: { deviceRange: 'widest' } });

const invented: Record<TestKey, Numbers> = {
  'supply-static': { values: { pressure: '0.31' } },
  'return-static': { values: { pressure: '-0.24' } },
  'bedroom-pressure': { values: { pressure: '2.6' } },
  'bedroom-relief': {
    values: { supplyFlow: '95' },
    rows: [
      { values: { width: '30', height: '0.75' }, choices: { kind: 'door-undercut' } },
      { values: { freeArea: '80' }, choices: { kind: 'grille' } },
    ],
  },
  'duct-leakage-rough': { values: { ductPressure: '25', flow: '78' } },
  'duct-leakage-total': { values: { ductPressure: '21.4', flow: '104' } },
  'duct-leakage-outdoors': { values: { housePressure: '25', ductToHousePressure: '0.1', flow: '62' } },
  'ventilator-duct-leakage': { values: { ductPressure: '25', flow: '11' } },
  'envelope-leakage': {
    values: { baselineBefore: '-1.2', baselineAfter: '-0.8' },
    rows: [
      point('-61', '1465'),
      point('-52', '1317'),
      point('-43', '1155'),
      point('-35', '1014'),
      point('-26', '822'),
      point('-18', '640'),
    ],
  },
  'whole-house-ventilation': {
    rows: [
      { values: { flow: '34' }, choices: { airstream: 'exhaust' } },
      { values: { flow: '31' }, choices: { airstream: 'exhaust' } },
    ],
  },
  'kitchen-exhaust': { choices: { mode: 'intermittent' }, rows: [inlet('58'), inlet('49')] },
  'bath-exhaust': { choices: { mode: 'intermittent' }, rows: [inlet('52')] },
  'ambient-carbon-monoxide': { values: { carbonMonoxide: '4', outdoorCarbonMonoxide: '1' } },
  spillage: { values: { seconds: '35' }, choices: { vent: 'cold', ended: 'stopped' } },
  depressurization: { values: { baseline: '-0.4', worstCase: '-2.1' } },
  'flue-carbon-monoxide': { values: { carbonMonoxide: '38', oxygen: '7.5' } },
};

/** One invented reading for each test, complete and plausible, to begin with. */
export const examples = Object.fromEntries(
  Object.entries(invented).map(([test, numbers]) => [test, filled(test as TestKey, numbers)]),
) as Record<TestKey, EnteredForm>;
