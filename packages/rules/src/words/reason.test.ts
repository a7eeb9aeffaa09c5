import { describe, expect, it } from 'vitest';
import { compileRuleSet } from '../evaluate.ts';
import type { Criterion, Item } from '../schema/index.ts';
import { cfm, ducts, judged, leak, madeFacts, madeItem, setOf, way, type Given } from '../test/made.ts';

describe('the reason of a verdict', () => {
  const most: Criterion = { check: 'at-most', quantity: leak, limit: cfm(100) };
  const inside: Criterion = { check: 'is', quantity: 'house.allDuctsInside', value: true };
  const one = (parts: Partial<Item>) => madeItem('duct-leakage-total', { options: way(most), ...parts });
  const two: Item['options'] = [
    ...way(most),
    {
      option: 'small',
      title: 'A small house',
      require: [
        {
          check: 'at-most',
          quantity: 'house.conditionedFloorArea',
          limit: { kind: 'constant', value: 1000, unit: 'ft2' },
        },
      ],
    },
  ];
  const label = 'total duct leakage at 25 Pa, all ducts of the house';

  it.each<[string, Item, Given, string]>([
    [
      'of one way that passes is its comparison',
      one({}),
      { measured: { leakageAt25: 90 } },
      '90 cfm; limit 100 cfm.',
    ],
    ['of one way that fails too', one({}), { measured: { leakageAt25: 110 } }, '110 cfm; limit 100 cfm.'],
    [
      'of several ways names what was compared',
      one({ options: two }),
      { measured: { leakageAt25: 90 } },
      `Total duct leakage at 25 Pa, all ducts of the house: 90 cfm; limit 100 cfm.`,
    ],
    [
      'of several ways that failed names each',
      one({ options: two }),
      { measured: { leakageAt25: 110 } },
      `Total duct leakage at 25 Pa, all ducts of the house: 110 cfm; limit 100 cfm; conditioned floor area: 2,000 ft²; limit 1,000 ft².`,
    ],
    [
      'of one way beside an exemption names what was compared',
      one({ exemptions: [{ exemption: 'in', title: 'Inside', require: [inside] }] }),
      { measured: { leakageAt25: 90 } },
      `Total duct leakage at 25 Pa, all ducts of the house: 90 cfm; limit 100 cfm.`,
    ],
    [
      'of facts alone says the facts',
      one({ options: way({ ...inside, value: false }) }),
      {},
      'All ducts and air handlers visibly inside conditioned space: no.',
    ],
    [
      'of a fact and a number says the number',
      one({ options: way({ ...inside, value: false }, most) }),
      { measured: { leakageAt25: 90 } },
      '90 cfm; limit 100 cfm.',
    ],
    [
      'of two failures of one way says both, labelled',
      one({ options: way(inside, most) }),
      { measured: { leakageAt25: 110 } },
      `All ducts and air handlers visibly inside conditioned space: no; ${label}: 110 cfm; limit 100 cfm.`,
    ],
    [
      'of an exemption gives its title',
      one({ exemptions: [{ exemption: 'in', title: 'Everything is inside', require: [inside] }] }),
      { house: { allDuctsInside: true } },
      'Exempt: Everything is inside.',
    ],
    [
      'of an exemption by a number gives that too',
      one({
        exemptions: [{ exemption: 'tight', title: 'Tight enough', require: [{ ...most, limit: cfm(20) }] }],
      }),
      { measured: { leakageAt25: 10 } },
      `Exempt: Tight enough (${label}: 10 cfm; limit 20 cfm).`,
    ],
    [
      'of what does not apply is what the item says',
      one({ appliesWhen: [inside], doesNotApply: 'Only ducts inside count' }),
      {},
      'Only ducts inside count.',
    ],
    [
      'of what does not apply is the fact, where the item says nothing',
      one({ appliesWhen: [inside] }),
      {},
      'Does not apply: all ducts and air handlers visibly inside conditioned space: no.',
    ],
    [
      'of what may apply is what is not known',
      one({ appliesWhen: [inside, { check: 'recorded', quantity: 'house.foundation' }] }),
      { house: { allDuctsInside: null, foundation: null } },
      'Whether this applies is open: not entered in the house’s file: all ducts and air handlers visibly inside conditioned space, not entered in the house’s file: foundation.',
    ],
    [
      'of a house that no way fits sends to the office',
      one({ options: [{ option: 'way', title: 'One way', when: [inside], require: [most] }] }),
      { measured: { leakageAt25: 90 } },
      'None of the ways to pass fits this house; ask the office.',
    ],
    ['of a wait says what is missing', one({}), {}, `Waiting: not yet measured: ${label}.`],
    [
      'of a wait for either of two says so',
      one({ options: two }),
      { house: { conditionedFloorArea: null } },
      `Waiting: not yet measured: ${label}; or not entered in the house’s file: conditioned floor area.`,
    ],
    [
      'of a wait for two things of one way joins them',
      one({ options: way(most, { check: 'recorded', quantity: 'house.bedrooms' }) }),
      { house: { bedrooms: null } },
      `Waiting: not yet measured: ${label}, not entered in the house’s file: number of bedrooms.`,
    ],
    [
      'of a wait tells what failed already',
      one({
        options: way(most, { check: 'recorded', quantity: 'house.bedrooms' }),
        exemptions: [{ exemption: 'in', title: 'Inside', require: [inside] }],
      }),
      { house: { allDuctsInside: null }, measured: { leakageAt25: 110 } },
      `${label.charAt(0).toUpperCase()}${label.slice(1)}: 110 cfm; limit 100 cfm; an exemption is still open: not entered in the house’s file: all ducts and air handlers visibly inside conditioned space.`,
    ],
    [
      'of a wait tells an exemption that is open beside the reading',
      one({ exemptions: [{ exemption: 'in', title: 'Inside', require: [inside] }] }),
      { house: { allDuctsInside: null } },
      `Waiting: not yet measured: ${label}; an exemption is still open: not entered in the house’s file: all ducts and air handlers visibly inside conditioned space.`,
    ],
    [
      'of a wait leaves out an exemption that nobody waits for',
      one({ exemptions: [{ exemption: 'in', title: 'Inside', keepsOpen: false, require: [inside] }] }),
      { house: { allDuctsInside: null } },
      `Waiting: not yet measured: ${label}.`,
    ],
  ])('%s', (_name, item, given, reason) => {
    expect(judged(item, given).reason).toBe(reason);
  });

  it.each(['waiting', 'not-applicable'] as const)(
    'of a house that lists none is what the item says of that, and %s',
    (status) => {
      const kitchen = madeItem('kitchen-exhaust', {
        options: way({ check: 'recorded', quantity: 'measured.intermittentFlow' }),
      });
      const facts = madeFacts(ducts(most), {});
      const none = { ...kitchen, whenNone: { status, words: 'no kitchen is drawn' } };
      expect(compileRuleSet(setOf(none))(facts).verdicts).toMatchObject([
        {
          status,
          reason: 'No kitchen is drawn.',
          subjectId: 'house',
          trace: { inputs: [], wouldChange: [] },
        },
      ]);
      expect(compileRuleSet(setOf(kitchen))(facts).verdicts).toEqual([]);
    },
  );
});
