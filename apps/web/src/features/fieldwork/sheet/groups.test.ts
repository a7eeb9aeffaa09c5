import { describe, expect, it } from 'vitest';
import type { TestKey } from '@countercheck/measurement';
import { groupItems } from './groups.ts';

const item = (tests: TestKey[], subjectLabel = 'House', more = {}) => ({
  title: tests[0] ?? 'no test',
  tests,
  safety: false,
  status: 'waiting' as const,
  subjectLabel,
  ...more,
});

describe('groupItems', () => {
  it('puts what can hurt people first and each rig together', () => {
    const { groups } = groupItems([
      item(['supply-static']),
      item(['duct-leakage-total']),
      item(['kitchen-exhaust']),
      item(['spillage'], 'Water heater', { safety: true }),
      item(['envelope-leakage']),
    ]);
    expect(groups.map(({ key }) => key)).toEqual(['safety', 'tightness', 'pressures', 'fans']);
    expect(groups[1]?.verdicts.map(({ title }) => title)).toEqual(['envelope-leakage', 'duct-leakage-total']);
  });

  it('puts an item that the rules call a safety item first, whatever its test', () => {
    const { groups } = groupItems([item(['kitchen-exhaust'], 'Kitchen', { safety: true })]);
    expect(groups.map(({ key }) => key)).toEqual(['safety']);
  });

  it('counts rooms as people do: 2 before 10', () => {
    const { groups } = groupItems([
      item(['bedroom-pressure'], 'Bedroom 10'),
      item(['bedroom-pressure'], 'Bedroom 2'),
    ]);
    expect(groups[0]?.verdicts.map(({ subjectLabel }) => subjectLabel)).toEqual(['Bedroom 2', 'Bedroom 10']);
  });

  it('folds away what does not apply and shows no empty group', () => {
    const { groups, folded } = groupItems([item(['spillage'], 'Range', { status: 'not-applicable' })]);
    expect(groups).toEqual([]);
    expect(folded).toHaveLength(1);
  });
});
