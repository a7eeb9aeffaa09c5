import { defineTest } from '../entry/define-test.ts';
import { staticConfirmations, staticField, staticGives, staticOutcome } from './static-pressure.ts';

/**
 * Supply static pressure at the installer's own test hole (in. w.c., above zero). Gives `staticPressure` (size)
 * and `signedPressure`. Refused: zero, or the wrong sign. Method: common practice, no published source.
 */
export const supplyStatic = defineTest({
  key: 'supply-static',
  how:
    'With a static pressure probe in the installer’s test hole after the air handler and its coil, its tip against the airflow, ' +
    'read the pressure against the room while the air handler runs.',
  instrumentKinds: ['manometer'],
  instrumentRequired: true,
  fields: [staticField('With its sign: the supply side is above zero.')],
  choices: [],
  rows: null,
  confirmations: staticConfirmations,
  gives: [...staticGives],
  work: (entry) => staticOutcome(entry, 'supply'),
});
