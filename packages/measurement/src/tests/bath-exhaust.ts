import { defineTest } from '../entry/define-test.ts';
import { exhaustGives, exhaustOutcome, inletRows, modeChoice } from './local-exhaust.ts';
import { terminalInstruments } from './terminal-flows.ts';

/**
 * Exhaust flow of a bath (cfm), its inlets added. Gives `flow`, and `intermittentFlow` or `continuousFlow` by
 * the mode. Method: common practice, no published source.
 */
export const bathExhaust = defineTest({
  key: 'bath-exhaust',
  how: 'With the fan on and the bath’s door closed, cover each inlet with the flow device, opened widest first, and read the flow.',
  instrumentKinds: terminalInstruments,
  instrumentRequired: true,
  fields: [],
  choices: [modeChoice],
  rows: inletRows,
  confirmations: [
    { key: 'fanOn', label: 'The fan runs at the setting to be verified' },
    { key: 'grilleClean', label: 'The grille is on and free of dust and protective film' },
    { key: 'doorClosed', label: 'The bath’s door is closed' },
  ],
  gives: [...exhaustGives],
  work: exhaustOutcome,
});
