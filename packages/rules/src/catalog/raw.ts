import type { TestKey } from '@countercheck/measurement';
import type { Facts, SubjectFacts } from '../types.ts';

/** What a rater reads, behind a result that is scaled by something that no correction changes. */
export interface RawBehind {
  /** result key of the same test */
  key: string;
  /** raw = result × scale; null when the scale is not known */
  scale(facts: Facts, subject: SubjectFacts): number | null;
}

const positive = (value: unknown): number | null =>
  typeof value === 'number' && Number.isFinite(value) && value > 0 ? value : null;

const over = (value: number | null, divisor: number) => (value === null ? null : value / divisor);

const perArea: RawBehind = {
  key: 'leakageAt25',
  scale: ({ house }) => over(positive(house['conditionedFloorArea']), 100),
};

const behind: Partial<Record<TestKey, Record<string, RawBehind>>> = {
  'bedroom-relief': {
    freeAreaPerFlow: {
      key: 'freeArea',
      // the reading's own airflow goes before the plan's: it is what the area was divided by
      scale: ({ measured }, subject) =>
        positive(measured['bedroom-relief']?.[subject.id]?.values['supplyFlow']?.value) ??
        positive(subject.facts['supplyFlow']),
    },
  },
  'envelope-leakage': {
    // cfm = air changes per hour × ft³ / 60
    airChangesAt50: { key: 'flowAt50', scale: ({ house }) => over(positive(house['conditionedVolume']), 60) },
  },
  'duct-leakage-rough': { leakagePerArea: perArea },
  'duct-leakage-total': { leakagePerArea: perArea },
  'duct-leakage-outdoors': { leakagePerArea: perArea },
};

/** The raw result behind a scaled one; null when the result is itself what is read. */
export function rawBehind(test: TestKey, key: string): RawBehind | null {
  return behind[test]?.[key] ?? null;
}
