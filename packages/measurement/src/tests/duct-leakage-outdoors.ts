import { defineTest } from '../entry/define-test.ts';
import { type Entry, required } from '../entry/part.ts';
import { refused } from '../outcome.ts';
import { magnitude } from '../pressure/signs.ts';
import type { TestOutcome } from '../types.ts';
import { plainNumber } from '../units/round.ts';
import { ductFanFields, ductGives, ductLeakage, ductRangeChoice } from './duct-leakage.ts';

/**
 * How near to zero the ducts must be against the house, Pa. The house and the ducts are then at one pressure
 * to outdoors and the tester moves only what leaks out of the house. The zero is seen in California RA3
 * (docs/sources.md, Measurement 3); the 0.5 Pa is common practice, no published source.
 */
export const ductToHouseWithin = 0.5;

/**
 * Duct leakage to outdoors (cfm at 25 Pa): the house at 25 Pa to outdoors, the ducts at 0 Pa to the house.
 * Gives `leakageAt25`, `reachedPressure`, `measuredFlow`. Refused: ducts not at the pressure of the house
 * (`ducts-not-balanced`), and as `ductLeakage`.
 */
export const ductLeakageOutdoors = defineTest({
  key: 'duct-leakage-outdoors',
  how: 'With the registers sealed, bring the house to 25 Pa to outdoors with a blower door, bring the ducts to 0 Pa against the house with the duct tester, and read what the tester moves.',
  instrumentKinds: ['duct-tester'],
  instrumentRequired: true,
  fields: [
    {
      key: 'housePressure',
      label: 'House pressure to outdoors',
      quantity: 'pressureDifference',
      min: -100,
      max: 100,
      required: true,
      signed: true,
      help: 'Aim for 25 Pa. Either sign, the same as the ducts.',
    },
    {
      key: 'ductToHousePressure',
      label: 'Duct pressure to the house',
      quantity: 'pressureDifference',
      min: -100,
      max: 100,
      required: true,
      signed: true,
      help: 'Aim for 0 Pa.',
    },
    ...ductFanFields,
  ],
  choices: [ductRangeChoice],
  rows: null,
  confirmations: [
    { key: 'airHandlerOff', label: 'The air handler is off at its service switch' },
    { key: 'filterOut', label: 'The filter is out' },
    { key: 'registersSealed', label: 'All registers and grilles are sealed' },
    {
      key: 'outdoorIntakeSealed',
      label: 'An outdoor-air duct of the system, if there is one, is sealed at its damper',
    },
    { key: 'houseClosed', label: 'Outside doors and windows are closed, inside doors open' },
    { key: 'combustionOff', label: 'Vented combustion appliances are off and fireplaces are cleared' },
  ],
  gives: [...ductGives],
  work: outdoors,
});

function outdoors(entry: Entry): TestOutcome {
  const difference = required(entry, 'ductToHousePressure');
  if (magnitude(difference) > ductToHouseWithin) {
    const message =
      `The ducts are at ${plainNumber(difference)} Pa to the house; bring them to 0 Pa (within ${ductToHouseWithin} Pa), ` +
      'so that the tester moves only what leaks outdoors, then read again.';
    return refused({ path: 'values.ductToHousePressure', code: 'ducts-not-balanced', message });
  }
  return ductLeakage(entry, 'housePressure', required(entry, 'housePressure'));
}
