import {
  testDefinitions,
  type QuantityKind,
  type SubjectKind,
  type TestKey,
} from '@countercheck/measurement';
import type { Entry } from './entry.ts';

export interface Result {
  key: string;
  label: string;
  quantity: QuantityKind;
}

const ductSum = (which: string): Result[] => [
  { key: 'leakageAt25', label: `${which} at 25 Pa, all ducts of the house`, quantity: 'airflow' },
  {
    key: 'leakagePerArea',
    label: `${which} per 100 ft² of conditioned floor`,
    quantity: 'leakagePerFloorArea',
  },
];

/**
 * Results for the house that no single reading gives: sums over systems and figures that need the house's
 * floor area or volume. The assessment package computes them and files them under the subject `house`.
 */
export const derivedResults: Partial<Record<TestKey, readonly Result[]>> = {
  'duct-leakage-rough': ductSum('duct leakage at rough-in'),
  'duct-leakage-total': ductSum('total duct leakage'),
  'duct-leakage-outdoors': ductSum('duct leakage to outdoors'),
  'envelope-leakage': [
    { key: 'airChangesAt50', label: 'air changes per hour at 50 Pa', quantity: 'airChangeRate' },
  ],
};

/** What people call a result, where the test's own label would not be understood away from its form. */
const spoken: Record<string, string> = {
  'supply-static/staticPressure': 'supply static pressure',
  'return-static/staticPressure': 'return static pressure',
  'bedroom-pressure/pressure': 'bedroom pressure with the door closed',
  'bedroom-relief/freeArea': 'free area of grilles, jumper ducts and door undercut',
  'bedroom-relief/freeAreaPerFlow': 'free area of grilles, jumper ducts and door undercut',
  'duct-leakage-total/leakageAt25': 'total duct leakage of the system at 25 Pa',
  'duct-leakage-rough/leakageAt25': 'duct leakage of the system at rough-in at 25 Pa',
  'duct-leakage-outdoors/leakageAt25': 'duct leakage of the system to outdoors at 25 Pa',
  'ventilator-duct-leakage/leakageAt25': 'leakage of the ventilator’s ducts at 25 Pa',
  'whole-house-ventilation/supplyFlow': 'ventilation supply airflow',
  'whole-house-ventilation/exhaustFlow': 'ventilation exhaust airflow',
  'kitchen-exhaust/intermittentFlow': 'kitchen exhaust, intermittent',
  'kitchen-exhaust/continuousFlow': 'kitchen exhaust, continuous',
  'bath-exhaust/intermittentFlow': 'bath exhaust, intermittent',
  'bath-exhaust/continuousFlow': 'bath exhaust, continuous',
  'spillage/spillageTime': 'time until spillage stopped',
  'spillage/stillSpilling': 'still spilling when the watch ended (1 is yes)',
  'flue-carbon-monoxide/carbonMonoxideAirFree': 'carbon monoxide in the flue, air-free',
  'flue-carbon-monoxide/carbonMonoxideAsMeasured': 'carbon monoxide in the flue, as measured',
};

const lowerFirst = (label: string) => label.charAt(0).toLowerCase() + label.slice(1);

const entries = new Map<string, Entry>();

function add(test: TestKey, subject: SubjectKind, { key, label, quantity }: Result): void {
  const said = subject === 'house' ? undefined : spoken[`${test}/${key}`];
  const entry: Entry = {
    name: `measured.${key}`,
    from: 'measured',
    label: said ?? lowerFirst(label),
    kind: quantity,
    subjects: [subject],
    test,
  };
  entries.set(`${test}/${subject}/${key}`, entry);
}

for (const definition of Object.values(testDefinitions))
  for (const result of definition.gives) add(definition.key, definition.subject, result);
for (const [test, results] of Object.entries(derivedResults))
  for (const result of results) add(test as TestKey, 'house', result);

/** A result of a test on a kind of subject as a named quantity; null when the test gives no such thing. */
export function measuredEntry(test: TestKey, key: string, subject: SubjectKind): Entry | null {
  return entries.get(`${test}/${subject}/${key}`) ?? null;
}

/** Every measured result with its test and subject, for people who look for a name. */
export const measuredEntries: readonly Entry[] = [...entries.values()];
