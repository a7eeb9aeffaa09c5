import { defineTest } from '../entry/define-test.ts';
import { required } from '../entry/part.ts';
import { ductFanFields, ductGives, ductLeakage, ductPressureField, ductRangeChoice } from './duct-leakage.ts';

/**
 * Leakage of a ventilator's own ducts (cfm at 25 Pa). Gives `leakageAt25`, `reachedPressure`, `measuredFlow`;
 * problems as `ductLeakage`. Set-up: common practice, no published source.
 */
export const ventilatorDuctLeakage = defineTest({
  key: 'ventilator-duct-leakage',
  how: 'With the unit off, its filters out and both outdoor hoods and all indoor terminals sealed, put the duct tester on one terminal, bring the ducts to 25 Pa against the house and read what it moves.',
  instrumentKinds: ['duct-tester'],
  instrumentRequired: true,
  fields: [ductPressureField, ...ductFanFields],
  choices: [ductRangeChoice],
  rows: null,
  confirmations: [
    { key: 'unitOff', label: 'The unit is off' },
    { key: 'filtersOut', label: 'The filters are out' },
    { key: 'hoodsSealed', label: 'Both outdoor hoods are sealed' },
    { key: 'terminalsSealed', label: 'All indoor terminals are sealed' },
  ],
  gives: [...ductGives],
  work: (entry) => ductLeakage(entry, 'ductPressure', required(entry, 'ductPressure')),
});
