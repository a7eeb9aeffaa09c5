import type { TestDefinition, TestKey } from '../types.ts';
import { ambientCarbonMonoxide } from './ambient-carbon-monoxide.ts';
import { bathExhaust } from './bath-exhaust.ts';
import { bedroomPressure } from './bedroom-pressure.ts';
import { bedroomRelief } from './bedroom-relief.ts';
import { depressurization } from './depressurization.ts';
import { ductLeakageOutdoors } from './duct-leakage-outdoors.ts';
import { ductLeakageRough } from './duct-leakage-rough.ts';
import { ductLeakageTotal } from './duct-leakage-total.ts';
import { envelopeLeakage } from './envelope-leakage.ts';
import { flueCarbonMonoxide } from './flue-carbon-monoxide.ts';
import { kitchenExhaust } from './kitchen-exhaust.ts';
import { returnStatic } from './return-static.ts';
import { spillage } from './spillage.ts';
import { supplyStatic } from './supply-static.ts';
import { ventilatorDuctLeakage } from './ventilator-duct-leakage.ts';
import { wholeHouseVentilation } from './whole-house-ventilation.ts';

/** Every test that a rater can do, by its key. */
export const testDefinitions: Record<TestKey, TestDefinition> = {
  'supply-static': supplyStatic,
  'return-static': returnStatic,
  'bedroom-pressure': bedroomPressure,
  'bedroom-relief': bedroomRelief,
  'duct-leakage-rough': ductLeakageRough,
  'duct-leakage-total': ductLeakageTotal,
  'duct-leakage-outdoors': ductLeakageOutdoors,
  'ventilator-duct-leakage': ventilatorDuctLeakage,
  'envelope-leakage': envelopeLeakage,
  'whole-house-ventilation': wholeHouseVentilation,
  'kitchen-exhaust': kitchenExhaust,
  'bath-exhaust': bathExhaust,
  'ambient-carbon-monoxide': ambientCarbonMonoxide,
  spillage,
  depressurization,
  'flue-carbon-monoxide': flueCarbonMonoxide,
};

/** The definition of one test. Never throws for a key of the list. */
export function testDefinition(key: TestKey): TestDefinition {
  return testDefinitions[key];
}
