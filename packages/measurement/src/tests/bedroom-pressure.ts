import { defineTest } from '../entry/define-test.ts';
import { required } from '../entry/part.ts';
import { gave } from '../outcome.ts';
import { magnitude } from '../pressure/signs.ts';
import { standardUncertainty } from '../uncertainty.ts';
import { type Given, measured } from './measured.ts';

const gives = [
  { key: 'pressure', label: 'Bedroom pressure (size)', quantity: 'pressureDifference' },
  { key: 'signedPressure', label: 'Bedroom pressure as read', quantity: 'pressureDifference' },
] as const satisfies Given[];

/**
 * Pressure of a bedroom with its door closed against the main body of the house (Pa, above zero when the
 * bedroom is pressurised). Gives `pressure` (size) and `signedPressure`; zero is a good reading. Method:
 * common practice, no published source.
 */
export const bedroomPressure = defineTest({
  key: 'bedroom-pressure',
  how: 'With the air handler running and the bedroom door closed, slide a tube under the door and read the bedroom’s pressure against the main body of the house.',
  instrumentKinds: ['manometer'],
  instrumentRequired: true,
  fields: [
    {
      key: 'pressure',
      label: 'Pressure to the main body',
      quantity: 'pressureDifference',
      min: -60,
      max: 60,
      required: true,
      signed: true,
      help: 'Above zero when air pushes out of the bedroom.',
    },
  ],
  choices: [],
  rows: null,
  confirmations: [
    { key: 'doorClosed', label: 'The bedroom door is closed' },
    { key: 'airHandlerOn', label: 'The air handler runs' },
    { key: 'otherDoorsOpen', label: 'The other interior doors are open' },
  ],
  gives: [...gives],
  work(entry) {
    const pressure = required(entry, 'pressure');
    const uncertainty = standardUncertainty(entry.instrument, pressure, 'pressureDifference');
    return gave([
      measured(gives[0], magnitude(pressure), uncertainty),
      measured(gives[1], pressure, uncertainty),
    ]);
  },
});
