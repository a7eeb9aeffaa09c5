import { defineTest } from '../entry/define-test.ts';
import { optional, required } from '../entry/part.ts';
import { gave } from '../outcome.ts';
import { standardUncertainty } from '../uncertainty.ts';
import { type Given, measured } from './measured.ts';

const gives = [
  { key: 'carbonMonoxide', label: 'Carbon monoxide in the house', quantity: 'concentration' },
  { key: 'outdoorCarbonMonoxide', label: 'Carbon monoxide outdoors', quantity: 'concentration' },
] as const satisfies Given[];

/**
 * Carbon monoxide in the air of the house (ppm), the highest value seen. Gives `carbonMonoxide`, and
 * `outdoorCarbonMonoxide` when it was read; the outdoor value is never taken off. What a value means is for the
 * rules in force.
 */
export const ambientCarbonMonoxide = defineTest({
  key: 'ambient-carbon-monoxide',
  how: 'Zero the monitor outdoors, walk through the house with the appliances running, stop in each room with a combustion appliance, and enter the highest value seen.',
  instrumentKinds: ['ambient-co-monitor', 'combustion-analyzer'],
  instrumentRequired: true,
  fields: [
    {
      key: 'carbonMonoxide',
      label: 'Carbon monoxide, highest in the house',
      quantity: 'concentration',
      min: 0,
      max: 5000,
      required: true,
      signed: false,
    },
    {
      key: 'outdoorCarbonMonoxide',
      label: 'Carbon monoxide outdoors',
      quantity: 'concentration',
      min: 0,
      max: 5000,
      required: false,
      signed: false,
    },
  ],
  choices: [],
  rows: null,
  confirmations: [{ key: 'zeroedOutdoors', label: 'The monitor was switched on and zeroed outdoors' }],
  gives: [...gives],
  work(entry) {
    const outdoors = optional(entry, 'outdoorCarbonMonoxide');
    const inside = required(entry, 'carbonMonoxide');
    const u = (value: number) => standardUncertainty(entry.instrument, value, 'concentration');
    return gave([
      measured(gives[0], inside, u(inside)),
      ...(outdoors === null ? [] : [measured(gives[1], outdoors, u(outdoors))]),
    ]);
  },
});
