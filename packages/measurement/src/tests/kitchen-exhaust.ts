import { defineTest } from '../entry/define-test.ts';
import { exhaustGives, exhaustOutcome, inletRows, modeChoice } from './local-exhaust.ts';
import { terminalInstruments } from './terminal-flows.ts';

/**
 * Exhaust flow of a kitchen (cfm), its inlets added. Gives `flow`, and `intermittentFlow` or `continuousFlow`
 * by the mode. Method: common practice, no published source.
 */
export const kitchenExhaust = defineTest({
  key: 'kitchen-exhaust',
  how: 'With the fan at the setting to be verified, cover each inlet of the hood or grille with the flow device, opened widest first, and read the flow.',
  instrumentKinds: terminalInstruments,
  instrumentRequired: true,
  fields: [],
  choices: [modeChoice],
  rows: inletRows,
  confirmations: [
    { key: 'fanOn', label: 'The fan runs at the setting to be verified' },
    { key: 'cooktopCold', label: 'The cooktop is off and cold' },
    { key: 'ductsOutdoors', label: 'The fan blows outdoors, not into the room' },
  ],
  gives: [...exhaustGives],
  work: exhaustOutcome,
});
