import { describe, expect, it } from 'vitest';
import type { Criterion, Item } from '../schema/index.ts';
import { cfm, ducts, judged, leak, madeItem, type Given } from '../test/made.ts';

describe('what a failed item takes, in words', () => {
  const most: Criterion = { check: 'at-most', quantity: leak, limit: cfm(100) };
  const label = 'Total duct leakage at 25 Pa, all ducts of the house';
  const inside: Criterion = { check: 'is', quantity: 'house.allDuctsInside', value: true };
  const takes = (item: Item, given: Given) =>
    judged(item, given).takes.map(({ words, nextOption }) => [words, nextOption]);

  it.each<[string, Item, Given, [string, string | null][]]>([
    [
      'less',
      ducts(most),
      { measured: { leakageAt25: 110.3 } },
      [[`${label}: at most 100 cfm, 10.3 cfm less than now.`, null]],
    ],
    [
      'more',
      ducts({ ...most, check: 'at-least' }),
      { measured: { leakageAt25: 66.67 } },
      [[`${label}: at least 100 cfm, 33.33 cfm more than now.`, null]],
    ],
    [
      'more than',
      ducts({ ...most, check: 'above' }),
      { measured: { leakageAt25: 66 } },
      [[`${label}: more than 100 cfm, 34 cfm more than now.`, null]],
    ],
    [
      'exactly so many',
      ducts({ check: 'is', quantity: leak, value: 40 }),
      { measured: { leakageAt25: 66 } },
      [[`${label}: 40 cfm.`, null]],
    ],
    ['nothing that can be named for a fact', ducts(inside), { measured: { leakageAt25: 66 } }, []],
    [
      'the nearest way first, the other by its title',
      madeItem('whole-house-ventilation', {
        options: [
          {
            option: 'far',
            title: 'The far way',
            require: [{ ...most, quantity: 'measured.supplyFlow', limit: cfm(50) }],
          },
          {
            option: 'near',
            title: 'The near way',
            require: [{ ...most, quantity: 'measured.exhaustFlow', limit: cfm(60) }],
          },
        ],
      }),
      { measured: { supplyFlow: 70, exhaustFlow: 66 } },
      [
        ['Ventilation exhaust airflow: at most 60 cfm, 6 cfm less than now.', null],
        ['Or – The far way – with ventilation supply airflow: at most 50 cfm, 20 cfm less than now.', 'far'],
      ],
    ],
    [
      'an exemption last',
      {
        ...ducts(most),
        exemptions: [{ exemption: 'tight', title: 'Tight', require: [{ ...most, limit: cfm(20) }] }],
      },
      { measured: { leakageAt25: 110 } },
      [
        [`${label}: at most 100 cfm, 10 cfm less than now.`, null],
        [
          'Exempt – Tight – with total duct leakage at 25 Pa, all ducts of the house: at most 20 cfm, 90 cfm less than now.',
          'tight',
        ],
      ],
    ],
    [
      'only the exemption, where the way itself is closed by a fact',
      {
        ...ducts(inside),
        exemptions: [{ exemption: 'tight', title: 'Tight', require: [{ ...most, limit: cfm(20) }] }],
      },
      { measured: { leakageAt25: 110 } },
      [
        [
          'Exempt – Tight – with total duct leakage at 25 Pa, all ducts of the house: at most 20 cfm, 90 cfm less than now.',
          'tight',
        ],
      ],
    ],
  ])('%s', (_name, item, given, wanted) => {
    expect(takes(item, given)).toEqual(wanted);
  });
});
