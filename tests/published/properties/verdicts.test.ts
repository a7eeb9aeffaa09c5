import { compileRuleSet } from '@countercheck/rules';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { factsOf, itemOf, type Case } from '../../../packages/rules/src/test/cases.ts';
import { shippedSets } from '../../../packages/rules/src/test/sets.ts';

/** Readings of which less is never worse, and of which more is never worse. */
const lessIsBetter = {
  'duct-leakage-total': 'leakageAt25',
  'duct-leakage-rough': 'leakageAt25',
  'duct-leakage-outdoors': 'leakageAt25',
  'envelope-leakage': 'airChangesAt50',
  'ambient-carbon-monoxide': 'carbonMonoxide',
  depressurization: 'depressurization',
  'flue-carbon-monoxide': 'carbonMonoxideAirFree',
};
const moreIsBetter = { 'kitchen-exhaust': 'intermittentFlow', 'bath-exhaust': 'continuousFlow' };

interface Judged {
  key: string;
  item: string;
  reading: string;
  direction: 1 | -1;
}

const judged: Judged[] = shippedSets.flatMap((set) => {
  const of = (readings: Record<string, string>, direction: 1 | -1) =>
    Object.entries(readings)
      .filter(([item]) => set.items.some((each) => each.item === item))
      .map(([item, reading]) => ({ key: set.key, item, reading, direction }));
  return [...of(lessIsBetter, -1), ...of(moreIsBetter, 1)];
});

describe('verdicts follow the reading', () => {
  it.each(judged)('$key, $item: a better $reading is never judged worse', (each) => {
    const set = shippedSets.find(({ key }) => key === each.key);
    if (!set) throw new Error(each.key);
    const item = itemOf(set, each.item);
    const evaluate = compileRuleSet(set);
    const rank = (value: number) => {
      const given: Case['given'] = { measured: { [each.reading]: value } };
      const { verdicts } = evaluate(factsOf({ case: '', given, expect: { status: 'pass' } }, item));
      const status = verdicts.find((verdict) => verdict.item === each.item)?.status;
      return ['fail', 'waiting', 'pass'].indexOf(status ?? '');
    };
    const value = fc.double({ min: 0, max: 600, noNaN: true });
    fc.assert(
      fc.property(value, value, (one, other) => {
        const [worse, better] = each.direction * one < each.direction * other ? [one, other] : [other, one];
        expect(rank(worse)).toBeGreaterThanOrEqual(0);
        expect(rank(better)).toBeGreaterThanOrEqual(rank(worse));
      }),
      { numRuns: 100, seed: 36 },
    );
  });
});
