import { defineTest } from '../entry/define-test.ts';
import { staticConfirmations, staticField, staticGives, staticOutcome } from './static-pressure.ts';

/**
 * Return static pressure at the installer's own test hole (in. w.c., below zero). Gives `staticPressure` (size)
 * and `signedPressure`. Refused: zero, or the wrong sign. Method: common practice, no published source.
 */
export const returnStatic = defineTest({
  key: 'return-static',
  how:
    'With a static pressure probe in the installer’s test hole between the filter and the air handler, its tip against the airflow, ' +
    'read the pressure against the room while the air handler runs.',
  instrumentKinds: ['manometer'],
  instrumentRequired: true,
  fields: [staticField('With its sign: the return side is below zero.')],
  choices: [],
  rows: null,
  confirmations: staticConfirmations,
  gives: [...staticGives],
  work: (entry) => staticOutcome(entry, 'return'),
});
