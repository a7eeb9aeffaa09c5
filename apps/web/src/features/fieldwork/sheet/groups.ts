import { testKeys, type TestKey } from '@countercheck/measurement';
import type { ItemVerdict } from '@countercheck/rules';

export type GroupKey = 'safety' | 'tightness' | 'fans' | 'pressures';

/** The order of the work: what can hurt people first, then so that each rig is set up once. */
const groupOrder: { key: GroupKey; title: string; rig: string }[] = [
  {
    key: 'safety',
    title: 'Combustion and carbon monoxide',
    rig: 'CO monitor on your body, analyzer, manometer',
  },
  { key: 'tightness', title: 'Envelope and ducts', rig: 'Blower door and duct tester, set up once' },
  { key: 'pressures', title: 'Pressures', rig: 'Manometer and probes, air handler running' },
  { key: 'fans', title: 'Fans and airflow', rig: 'Flow hood or exhaust flow meter' },
];

const groupOfTest: Record<TestKey, GroupKey> = {
  'ambient-carbon-monoxide': 'safety',
  spillage: 'safety',
  depressurization: 'safety',
  'flue-carbon-monoxide': 'safety',
  'envelope-leakage': 'tightness',
  'duct-leakage-rough': 'tightness',
  'duct-leakage-total': 'tightness',
  'duct-leakage-outdoors': 'tightness',
  'ventilator-duct-leakage': 'tightness',
  'whole-house-ventilation': 'fans',
  'kitchen-exhaust': 'fans',
  'bath-exhaust': 'fans',
  'supply-static': 'pressures',
  'return-static': 'pressures',
  'bedroom-pressure': 'pressures',
  'bedroom-relief': 'pressures',
};

/** Within the group, the order in which one setup leads to the next. */
const workOrder: TestKey[] = [
  'ambient-carbon-monoxide',
  'depressurization',
  'spillage',
  'flue-carbon-monoxide',
  'envelope-leakage',
  'duct-leakage-total',
  'duct-leakage-outdoors',
  'duct-leakage-rough',
  'ventilator-duct-leakage',
  ...testKeys,
];

type Sortable = Pick<ItemVerdict, 'safety' | 'tests' | 'status' | 'subjectLabel' | 'title'>;

function groupOf(verdict: Pick<ItemVerdict, 'safety' | 'tests'>): GroupKey {
  const [first] = verdict.tests;
  if (verdict.safety) return 'safety';
  return first ? groupOfTest[first] : 'pressures';
}

export interface ItemGroup<V> {
  key: GroupKey;
  title: string;
  rig: string;
  verdicts: V[];
}

/** The items that come up, grouped in the order of work, and apart from them those that do not apply. */
export function groupItems<V extends Sortable>(
  verdicts: readonly V[],
): { groups: ItemGroup<V>[]; folded: V[] } {
  const folded = verdicts.filter(({ status }) => status === 'not-applicable');
  const groups = groupOrder
    .map((group) => ({
      ...group,
      verdicts: verdicts
        .filter((verdict) => verdict.status !== 'not-applicable' && groupOf(verdict) === group.key)
        .sort((a, b) => place(a) - place(b) || a.title.localeCompare(b.title) || byLabel(a, b)),
    }))
    .filter((group) => group.verdicts.length > 0);
  return { groups, folded };
}

function place({ tests }: Sortable): number {
  return tests[0] ? workOrder.indexOf(tests[0]) : workOrder.length;
}

function byLabel(a: Sortable, b: Sortable): number {
  return a.subjectLabel.localeCompare(b.subjectLabel, 'en', { numeric: true });
}
