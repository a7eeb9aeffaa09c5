import { describe, expect, it } from 'vitest';
import { compileRuleSet } from '../evaluate.ts';
import type { Criterion, Item } from '../schema/index.ts';
import { cfm, ducts, judged, leak, madeFacts, setOf } from '../test/made.ts';

describe('a verdict close to its limit', () => {
  const most: Criterion = { check: 'at-most', quantity: leak, limit: cfm(100) };
  const closeAt = (item: Item, leakageAt25: number, u: number) =>
    judged(item, { measured: { leakageAt25 } }, { u }).closeWords;

  // normal distribution: Φ(−0.2) 42.07 %, Φ(−1.9) 2.87 %, Φ(−2.5) + … , computed independently
  it.each<[string, Item, number, number, string | null]>([
    [
      'above',
      ducts(most),
      99,
      5,
      'Passes, but close to the limit: 42 % chance that the true value is above.',
    ],
    [
      'below',
      ducts({ ...most, check: 'at-least' }),
      101,
      5,
      'Passes, but close to the limit: 42 % chance that the true value is below.',
    ],
    [
      'on either side',
      ducts({ check: 'between', quantity: leak, low: cfm(99), high: cfm(101) }),
      100,
      5,
      'Passes, but close to the limit: 84 % chance that the true value is outside.',
    ],
    [
      'nearly everywhere',
      ducts({ check: 'between', quantity: leak, low: cfm(99.99), high: cfm(100.01) }),
      100,
      50,
      'Passes, but close to the limit: more than 99 % chance that the true value is outside.',
    ],
    [
      'exactly on it',
      ducts(most),
      100,
      5,
      'Passes, but close to the limit: 50 % chance that the true value is above.',
    ],
    ['not, twice the uncertainty away', ducts(most), 90, 5, null],
    [
      'just within twice the uncertainty',
      ducts(most),
      90.1,
      5,
      'Passes, but close to the limit: 2 % chance that the true value is above.',
    ],
    ['not, where it fails', ducts(most), 101, 5, null],
    [
      'by the criterion that is nearest to its own',
      ducts(most, { ...most, limit: cfm(102) }),
      99,
      5,
      'Passes, but close to the limit: 42 % chance that the true value is above.',
    ],
    [
      'by the second criterion, where that is nearer',
      ducts({ ...most, limit: cfm(102) }, most),
      99,
      5,
      'Passes, but close to the limit: 42 % chance that the true value is above.',
    ],
  ])('says that the true value may be %s', (_where, item, value, u, words) => {
    expect(closeAt(item, value, u)).toBe(words);
  });

  it('says so of an exemption too', () => {
    const item = {
      ...ducts(most),
      exemptions: [{ exemption: 'tight', title: 'Tight', require: [{ ...most, limit: cfm(20) }] }],
    };
    expect(closeAt(item, 19, 5)).toBe(
      'Exempt, but close to the limit: 42 % chance that the true value is above.',
    );
  });

  it('says less than 1 % where few degrees of freedom make it close all the same', () => {
    const facts = madeFacts(ducts(most), { measured: { leakageAt25: 90 } }, 4);
    const reading = facts.measured['duct-leakage-total']!['house']!;
    reading.values['leakageAt25']!.expandedUncertainty = 12;
    const verdict = compileRuleSet(setOf(ducts(most)))(facts).verdicts[0]!;
    // Φ(−10 / 4) = 0.00621, computed independently
    expect(verdict.headline!.chanceOutside).toBeCloseTo(0.00621, 5);
    expect(verdict.closeWords).toBe(
      'Passes, but close to the limit: less than 1 % chance that the true value is above.',
    );
  });
});
