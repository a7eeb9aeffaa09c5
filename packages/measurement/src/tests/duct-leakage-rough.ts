import { defineTest } from '../entry/define-test.ts';
import { required } from '../entry/part.ts';
import { ductFanFields, ductGives, ductLeakage, ductPressureField, ductRangeChoice } from './duct-leakage.ts';

/**
 * Total duct leakage before the walls are closed (cfm at 25 Pa). Gives `leakageAt25`, `reachedPressure`,
 * `measuredFlow`; problems as `ductLeakage`.
 */
export const ductLeakageRough = defineTest({
  key: 'duct-leakage-rough',
  how: 'With every boot and grille opening sealed and the tester on the largest opening left, bring the ducts to 25 Pa against the house and read what the tester moves.',
  instrumentKinds: ['duct-tester'],
  instrumentRequired: true,
  fields: [ductPressureField, ...ductFanFields],
  choices: [ductRangeChoice],
  rows: null,
  confirmations: [
    { key: 'openingsSealed', label: 'All boots, grille openings and the ends of the ducts are sealed' },
    {
      key: 'outdoorIntakeSealed',
      label: 'An outdoor-air duct of the system, if there is one, is sealed at its damper',
    },
    { key: 'openToOutdoors', label: 'The house is open to outdoors at a door or window' },
  ],
  gives: [...ductGives],
  work: (entry) => ductLeakage(entry, 'ductPressure', required(entry, 'ductPressure')),
});
