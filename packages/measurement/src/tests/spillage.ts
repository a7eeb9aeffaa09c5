import { defineTest } from '../entry/define-test.ts';
import { type Entry, required } from '../entry/part.ts';
import { gave } from '../outcome.ts';
import type { TestOutcome } from '../types.ts';
import { standardUncertainty } from '../uncertainty.ts';
import { type Given, measured } from './measured.ts';

const gives = [
  { key: 'stillSpilling', label: 'Still spilling when the watch ended (1 = yes)', quantity: 'count' },
  { key: 'spillageTime', label: 'Time until spillage stopped', quantity: 'duration' },
  { key: 'coldVentSpillageTime', label: 'Time until spillage stopped, cold vent', quantity: 'duration' },
  { key: 'warmVentSpillageTime', label: 'Time until spillage stopped, warm vent', quantity: 'duration' },
] as const satisfies Given[];

/**
 * How long an appliance spills flue gas into the room after it lights (s). Gives `stillSpilling` (0 or 1)
 * always. The times, `spillageTime` and the one of the vent's state, are given only when spillage stopped: a
 * watch that ended early must not look like a short spillage. Method: common practice, no published source.
 */
export const spillage = defineTest({
  key: 'spillage',
  how: 'With the house set to its worst case, light the appliance, hold smoke or a mirror all around the draft hood, and time how long flue gas comes out.',
  instrumentKinds: ['stopwatch'],
  instrumentRequired: false,
  fields: [
    {
      key: 'seconds',
      label: 'Seconds until spillage stopped, or watched',
      quantity: 'duration',
      min: 0,
      max: 1800,
      required: true,
      signed: false,
    },
  ],
  choices: [
    {
      key: 'vent',
      label: 'Vent when the appliance was lit',
      required: true,
      from: 'options',
      options: [
        { value: 'cold', label: 'Cold' },
        { value: 'warm', label: 'Warm' },
      ],
    },
    {
      key: 'ended',
      label: 'How the watch ended',
      required: true,
      from: 'options',
      options: [
        { value: 'stopped', label: 'Spillage stopped (0 s when there was none)' },
        { value: 'still-spilling', label: 'It was still spilling' },
      ],
    },
  ],
  rows: null,
  confirmations: [
    { key: 'worstCase', label: 'Exhaust fans, dryer, air handler and doors are set to the worst case' },
  ],
  gives: [...gives],
  work: spilled,
});

function spilled(entry: Entry): TestOutcome {
  const seconds = required(entry, 'seconds');
  if (entry.choices['ended'] === 'still-spilling') {
    return gave([measured(gives[0], 1)], [], [`still spilling after ${seconds} s`]);
  }
  const byVent = entry.choices['vent'] === 'cold' ? gives[2] : gives[3];
  const u = standardUncertainty(entry.instrument, seconds, 'duration');
  return gave([measured(gives[0], 0), measured(gives[1], seconds, u), measured(byVent, seconds, u)]);
}
