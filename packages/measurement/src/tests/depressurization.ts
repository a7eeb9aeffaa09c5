import { defineTest } from '../entry/define-test.ts';
import { type Entry, required } from '../entry/part.ts';
import { gave } from '../outcome.ts';
import type { FieldDefinition, TestOutcome } from '../types.ts';
import { standardUncertainty } from '../uncertainty.ts';
import { plainNumber } from '../units/round.ts';
import { type Given, measured } from './measured.ts';

const gives = [
  { key: 'depressurization', label: 'Depressurization by the house’s fans', quantity: 'pressureDifference' },
  { key: 'netPressure', label: 'Worst case less baseline', quantity: 'pressureDifference' },
] as const satisfies Given[];

/**
 * How far the house's own fans and doors pull the combustion appliance zone below its baseline (Pa).
 * Gives `netPressure` = worst case − baseline (below zero when pulled down) and `depressurization`, the same
 * with the sign turned: above zero is depressurised, below zero pressurised. Source of the difference: the net
 * pressure change of the data format for home energy ratings (docs/sources.md, Measurement 4).
 */
export const depressurization = defineTest({
  key: 'depressurization',
  how: 'Read the combustion appliance zone’s pressure to outdoors with all fans off, then with exhaust fans, dryer, air handler and doors set to the lowest pressure that can be found.',
  instrumentKinds: ['manometer'],
  instrumentRequired: true,
  fields: [zonePressure('baseline', 'Baseline, all fans off'), zonePressure('worstCase', 'Worst case')],
  choices: [],
  rows: null,
  confirmations: [
    { key: 'houseClosed', label: 'Outside doors and windows are closed' },
    {
      key: 'worstCaseFound',
      label: 'Fans, dryer, air handler and inside doors were tried for the lowest pressure',
    },
  ],
  gives: [...gives],
  work: pulledDown,
});

function zonePressure(key: string, label: string): FieldDefinition {
  const help = 'Zone to outdoors, with its sign.';
  return {
    key,
    label,
    quantity: 'pressureDifference',
    min: -100,
    max: 100,
    required: true,
    signed: true,
    help,
  };
}

function pulledDown(entry: Entry): TestOutcome {
  const baseline = required(entry, 'baseline');
  const worstCase = required(entry, 'worstCase');
  const net = worstCase - baseline;
  const of = (value: number) => standardUncertainty(entry.instrument, value, 'pressureDifference');
  const [ub, uw] = [of(baseline), of(worstCase)];
  // The gauge's error may differ between two readings of different size, so it is not counted on to cancel.
  const u = ub === null || uw === null ? null : Math.hypot(ub, uw);
  const working = `${plainNumber(worstCase)} − (${plainNumber(baseline)})`;
  return gave(
    [measured(gives[0], -net, u), measured(gives[1], net, u)],
    [{ label: gives[1].label, working, value: net, unit: 'Pa' }],
  );
}
