import { defineTest } from '../entry/define-test.ts';
import type { Entry } from '../entry/part.ts';
import { gave } from '../outcome.ts';
import type { MeasuredValue, Step, TestOutcome } from '../types.ts';
import { type Given, measured } from './measured.ts';
import { sumOfRows, terminalFlowField, terminalInstruments } from './terminal-flows.ts';

const airstreams = [
  { airstream: 'supply', given: { key: 'supplyFlow', label: 'Supply flow', quantity: 'airflow' } },
  { airstream: 'exhaust', given: { key: 'exhaustFlow', label: 'Exhaust flow', quantity: 'airflow' } },
] as const satisfies { airstream: string; given: Given }[];

/**
 * Flow of the whole-house ventilation (cfm), summed over the terminals of each airstream. Gives `supplyFlow`
 * and `exhaustFlow`; an airstream without rows is not given. The terminals of one stream add.
 * Method: common practice, no published source.
 */
export const wholeHouseVentilation = defineTest({
  key: 'whole-house-ventilation',
  how: 'With the ventilation at its normal setting, measure both airstreams on the suction side, where the flow device reads truest: the supply stream where outdoor air is drawn in, the exhaust stream at the indoor terminals that draw.',
  instrumentKinds: terminalInstruments,
  instrumentRequired: true,
  fields: [],
  choices: [],
  rows: {
    label: 'Terminals',
    rowLabel: 'Terminal',
    min: 1,
    max: 40,
    fields: [terminalFlowField],
    choices: [
      {
        key: 'airstream',
        label: 'Airstream',
        required: true,
        from: 'options',
        options: [
          { value: 'supply', label: 'Supply (outdoor air in)' },
          { value: 'exhaust', label: 'Exhaust (house air out)' },
        ],
      },
    ],
  },
  confirmations: [
    { key: 'normalSetting', label: 'The ventilation runs at the setting it is meant to run at' },
    { key: 'filtersIn', label: 'The filters are in and clean' },
  ],
  gives: airstreams.map(({ given }) => given),
  work: ventilation,
});

function ventilation(entry: Entry): TestOutcome {
  const values: MeasuredValue[] = [];
  const steps: Step[] = [];
  for (const { airstream, given } of airstreams) {
    const rows = entry.rows.filter(({ choices }) => choices['airstream'] === airstream);
    if (rows.length === 0) continue;
    const total = sumOfRows(rows, entry.instrument, given.label);
    values.push(measured(given, total.flow, total.standardUncertainty));
    steps.push(total.step);
  }
  return gave(values, steps);
}
