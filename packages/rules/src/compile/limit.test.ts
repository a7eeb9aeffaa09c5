import { describe, expect, it } from 'vitest';
import { checkRuleSet } from '../check/index.ts';
import { evaluate } from '../evaluate.ts';
import type { Item, RuleSet } from '../schema/index.ts';
import { factsOf, itemOf } from '../test/cases.ts';
import { commonPractice, companyStrict } from '../test/sets.ts';
import type { Facts } from '../types.ts';

/** The common set with another item for the ventilation airflow. */
function setWith(changes: Partial<Item>): RuleSet {
  const item = itemOf(commonPractice, 'whole-house-ventilation');
  return { ...commonPractice, items: [{ ...item, ...changes }] };
}

const flows = (supply: number, exhaust: number, u: number): Facts => {
  const facts = factsOf(
    {
      case: '',
      given: { house: { bedrooms: 3 }, measured: { supplyFlow: supply, exhaustFlow: exhaust } },
      expect: { status: 'pass' },
    },
    itemOf(commonPractice, 'whole-house-ventilation'),
  );
  for (const each of Object.values(facts.measured['whole-house-ventilation'] ?? {}))
    for (const value of Object.values(each.values)) {
      value.standardUncertainty = u;
      value.expandedUncertainty = 2 * u;
    }
  return facts;
};

describe('a limit by formula over named quantities', () => {
  // 0.01 · A + 7.5 · (bedrooms + 1): ASHRAE 62.2-2010, from memory
  const rate: Item['limit'] = {
    kind: 'formula',
    unit: 'cfm',
    constant: 7.5,
    terms: [
      { quantity: 'house.conditionedFloorArea', coefficient: 0.01 },
      { quantity: 'house.bedrooms', coefficient: 7.5 },
    ],
  };
  const byFormula = setWith({
    limit: rate,
    options: [
      {
        option: 'rate',
        title: 'At least the rate for floor area and bedrooms',
        require: [{ check: 'at-least', quantity: 'measured.supplyFlow' }],
      },
    ],
  });

  it('is worked out from the house', () => {
    expect(checkRuleSet(byFormula)).toEqual([]);
    // 0.01 × 2,000 + 7.5 × 4 = 50 cfm
    const at = (cfm: number) => evaluate(byFormula, flows(cfm, 60, 1)).verdicts[0]!;
    expect(at(50)).toMatchObject({ status: 'pass', headline: { low: 50, standardUncertainty: 1 } });
    expect(at(49.9)).toMatchObject({ status: 'fail', takes: [{ reading: { value: 50, unit: 'cfm' } }] });
  });

  it('brings the uncertainty of the readings it is worked out from', () => {
    const half: Item['limit'] = {
      kind: 'formula',
      unit: 'cfm',
      constant: 0,
      terms: [{ quantity: 'measured.exhaustFlow', coefficient: 0.5 }],
    };
    const set = setWith({ ...byFormula.items[0]!, limit: half });
    const { headline } = evaluate(set, flows(40, 60, 2)).verdicts[0]!;
    // √(2² + (0.5 × 2)²)
    expect(headline!.standardUncertainty).toBeCloseTo(Math.sqrt(5), 12);
  });
});

describe('two airstreams', () => {
  it('are compared with the uncertainty of both', () => {
    const balance = evaluate(commonPractice, flows(75, 70, 1))
      .verdicts.find((each) => each.item === 'whole-house-ventilation')!
      .trace.options[0]!.comparisons.find((each) => each.words.includes('apart'))!;
    // 75 against at most 1.1 × 70: √(1² + 1.1²)
    expect(balance.standardUncertainty).toBeCloseTo(Math.hypot(1, 1.1), 12);
    expect(balance.closeToLimit).toBe(true);
  });
});

describe('the stricter set', () => {
  it('inherits everything but four limits', () => {
    const changed = companyStrict.items.filter(
      ({ item, limit }) => JSON.stringify(limit) !== JSON.stringify(itemOf(commonPractice, item).limit),
    );
    expect(changed.map((each) => each.item)).toEqual([
      'supply-static',
      'bedroom-pressure-relief',
      'duct-leakage-total',
      'duct-leakage-outdoors',
    ]);
  });
});
