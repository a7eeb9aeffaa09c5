import type { Entered } from './rater.ts';

export const manometer = 'Manometer 1 (M-1)';
export const ductTester = 'Duct tester 1 (D-1)';
const meter = 'Exhaust flow meter 1 (E-1)';
const terminal = (flow: string, choice: string) => [{ fields: { Flow: flow }, choices: [choice] }];
const widest = 'Widest opening';

export interface Stop {
  title: string;
  part?: string;
  test?: string;
  entered: Entered;
}

export const ductsAt25 = (flow: string): Entered => ({
  instrument: ductTester,
  fields: { 'Duct pressure': '25', 'Fan flow': flow },
});

/** What the rater reads in the house besides supply static and total duct leakage, in the order of the walk. */
export const walk: Stop[] = [
  {
    title: 'Duct leakage to outdoors',
    entered: {
      instrument: ductTester,
      fields: { 'House pressure to outdoors': '25', 'Duct pressure to the house': '0', 'Fan flow': '60' },
    },
  },
  { title: 'Return static pressure', entered: { instrument: manometer, fields: { Pressure: '-0.1' } } },
  ...['Bedroom 2', 'Bedroom 1'].map((part) => ({
    title: 'Bedroom pressure relief',
    part,
    test: 'Bedroom pressure',
    entered: { instrument: manometer, fields: { 'Pressure to the main body': '2.1' } },
  })),
  {
    title: 'Bath exhaust',
    entered: { instrument: meter, choices: ['Intermittent (on demand)'], rows: terminal('56', widest) },
  },
  {
    title: 'Kitchen exhaust',
    entered: {
      instrument: meter,
      choices: ['Intermittent (on demand)'],
      rows: [...terminal('62', widest), ...terminal('55', widest)],
    },
  },
  {
    title: 'Whole-house ventilation',
    entered: { instrument: meter, rows: terminal('66', 'Exhaust (house air out)') },
  },
  {
    title: 'Envelope leakage',
    entered: {
      instrument: 'Blower door 1 (B-1)',
      fields: { 'Baseline before': '0' },
      rows: [{ fields: { 'House pressure to outdoors': '50', 'Fan flow': '900' } }],
    },
  },
];
