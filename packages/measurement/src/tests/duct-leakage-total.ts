import { defineTest } from '../entry/define-test.ts';
import { required } from '../entry/part.ts';
import { ductFanFields, ductGives, ductLeakage, ductPressureField, ductRangeChoice } from './duct-leakage.ts';

/**
 * Total duct leakage of the finished system, its equipment in place (cfm at 25 Pa). Gives `leakageAt25`,
 * `reachedPressure`, `measuredFlow`; problems as `ductLeakage`.
 */
export const ductLeakageTotal = defineTest({
  key: 'duct-leakage-total',
  how: 'With the registers and grilles sealed, the filter out and a door or window open, bring the ducts to 25 Pa against the house with the duct tester and read what it moves.',
  instrumentKinds: ['duct-tester'],
  instrumentRequired: true,
  fields: [ductPressureField, ...ductFanFields],
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
    { key: 'openToOutdoors', label: 'The house is open to outdoors at a door or window' },
  ],
  gives: [...ductGives],
  work: (entry) => ductLeakage(entry, 'ductPressure', required(entry, 'ductPressure')),
});
