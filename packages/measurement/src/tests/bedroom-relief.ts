import { defineTest } from '../entry/define-test.ts';
import { type Entry, required } from '../entry/part.ts';
import { gave, refused } from '../outcome.ts';
import { predictedPressure } from '../pressure/opening.ts';
import type { Step, TestOutcome } from '../types.ts';
import { powerUncertainty, standardUncertainty } from '../uncertainty.ts';
import { plainNumber } from '../units/round.ts';
import { freeAreaOf } from './free-area.ts';
import { type Given, measured } from './measured.ts';

const gives = [
  { key: 'freeArea', label: 'Free area of the openings', quantity: 'openingArea' },
  { key: 'freeAreaPerFlow', label: 'Free area per supply flow', quantity: 'openingPerFlow' },
  { key: 'predictedPressure', label: 'Predicted pressure', quantity: 'pressureDifference' },
  { key: 'supplyFlow', label: 'Supply flow', quantity: 'airflow' },
] as const satisfies Given[];

/**
 * The way back for a bedroom's supply air: free area of its openings (in²), that area per supply flow (in² per
 * cfm) and the pressure the flow would make across it (Pa, `predictedPressure`).
 * Refused: no flow, an opening without free area, a grille by its outer size.
 */
export const bedroomRelief = defineTest({
  key: 'bedroom-relief',
  how: 'Measure the bedroom’s supply flow with a flow hood, then enter the free area of every opening to the main body; the gap under the door by its width and height.',
  instrumentKinds: ['flow-hood', 'powered-flow-hood'],
  instrumentRequired: true,
  fields: [
    {
      key: 'supplyFlow',
      label: 'Supply flow',
      quantity: 'airflow',
      min: 1,
      max: 1000,
      required: true,
      signed: false,
      help: 'The sum of the bedroom’s supply registers, measured.',
    },
  ],
  choices: [],
  rows: {
    label: 'Openings',
    rowLabel: 'Opening',
    min: 1,
    max: 12,
    fields: [
      {
        key: 'freeArea',
        label: 'Free area',
        quantity: 'openingArea',
        min: 0.5,
        max: 2000,
        required: false,
        signed: false,
      },
      {
        key: 'width',
        label: 'Width of the gap',
        quantity: 'length',
        min: 1,
        max: 120,
        required: false,
        signed: false,
      },
      {
        key: 'height',
        label: 'Height of the gap',
        quantity: 'length',
        min: 0.05,
        max: 12,
        required: false,
        signed: false,
      },
    ],
    choices: [
      {
        key: 'kind',
        label: 'Kind of opening',
        required: true,
        from: 'options',
        options: [
          { value: 'grille', label: 'Grille through the wall or door' },
          { value: 'jumper-duct', label: 'Jumper duct' },
          { value: 'door-undercut', label: 'Gap under the door' },
        ],
      },
    ],
  },
  confirmations: [],
  gives: [...gives],
  work: relief,
});

function relief(entry: Entry): TestOutcome {
  const supplyFlow = required(entry, 'supplyFlow');
  const steps: Step[] = [];
  let area = 0;
  for (const opening of entry.rows) {
    const found = freeAreaOf(opening);
    if (!found.ok) return refused(found.problem);
    area += found.value.area;
    steps.push(found.value.step);
  }
  const predicted = predictedPressure(area, supplyFlow);
  if (!predicted.ok) return refused({ ...predicted.problem, path: 'rows' });
  const pressure = predicted.value;
  const perFlow = area / supplyFlow;
  const [a, q] = [plainNumber(area), plainNumber(supplyFlow)];
  steps.push({ label: 'Free area per supply flow', working: `${a} / ${q}`, value: perFlow, unit: 'in2/cfm' });
  steps.push({
    label: 'Predicted pressure',
    working: `(${q} / (1.07 × ${a}))^2`,
    value: pressure,
    unit: 'Pa',
  });
  const u = standardUncertainty(entry.instrument, supplyFlow, 'airflow');
  const scaled = (result: number, exponent: number) =>
    u === null ? null : powerUncertainty(result, exponent, supplyFlow, u);
  return gave(
    [
      measured(gives[0], area),
      measured(gives[1], perFlow, scaled(perFlow, -1)),
      measured(gives[2], pressure, scaled(pressure, 2)),
      measured(gives[3], supplyFlow, u),
    ],
    steps,
  );
}
