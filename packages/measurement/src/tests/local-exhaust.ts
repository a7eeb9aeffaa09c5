import type { Entry } from '../entry/part.ts';
import { gave } from '../outcome.ts';
import type { ChoiceDefinition, RowsDefinition, TestOutcome } from '../types.ts';
import { type Given, measured } from './measured.ts';
import { sumOfRows, terminalFlowField } from './terminal-flows.ts';

export const exhaustGives = [
  { key: 'flow', label: 'Exhaust flow', quantity: 'airflow' },
  { key: 'intermittentFlow', label: 'Intermittent exhaust flow', quantity: 'airflow' },
  { key: 'continuousFlow', label: 'Continuous exhaust flow', quantity: 'airflow' },
] as const satisfies Given[];

/** Whether the fan runs on demand or all the time: codes set different flows for the two. */
export const modeChoice: ChoiceDefinition = {
  key: 'mode',
  label: 'How the fan runs',
  required: true,
  from: 'options',
  options: [
    { value: 'intermittent', label: 'Intermittent (on demand)' },
    { value: 'continuous', label: 'Continuous' },
  ],
};

/**
 * The inlets of a room's exhaust, each with the setting of the flow device. The device is opened widest first,
 * because a narrow opening throttles the fan, and is narrowed only when the reading is too small: common
 * practice, no published source.
 */
export const inletRows: RowsDefinition = {
  label: 'Inlets',
  rowLabel: 'Inlet',
  min: 1,
  max: 12,
  fields: [terminalFlowField],
  choices: [
    {
      key: 'deviceRange',
      label: 'Range setting of the flow device',
      required: true,
      from: 'options',
      options: [
        { value: 'widest', label: 'Widest opening' },
        { value: 'middle', label: 'Middle opening' },
        { value: 'narrowest', label: 'Narrowest opening' },
        { value: 'single', label: 'The device has one opening only' },
      ],
      help: 'Start with the widest opening; narrow it only when the reading is too small for it.',
    },
  ],
};

/**
 * A room's exhaust flow, cfm: the sum over its inlets, given as `flow` and once more as `intermittentFlow` or
 * `continuousFlow` by the mode. Never throws.
 */
export function exhaustOutcome(entry: Entry): TestOutcome {
  const total = sumOfRows(entry.rows, entry.instrument, 'Exhaust flow');
  const byMode = entry.choices['mode'] === 'continuous' ? exhaustGives[2] : exhaustGives[1];
  return gave(
    [exhaustGives[0], byMode].map((given) => measured(given, total.flow, total.standardUncertainty)),
    [total.step],
  );
}
