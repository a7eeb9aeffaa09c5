import { describe, expect, it } from 'vitest';
import type { Criterion, Item, Limit } from '../schema/index.ts';
import { madeItem, setOf, unconfirmed } from '../test/made.ts';
import { commonPractice } from '../test/sets.ts';
import { checkRuleSet } from './index.ts';
import { RuleSetError } from './problem.ts';

/** What the check says, a line a problem: path, colon, message. */
const said = (...items: Item[]) =>
  checkRuleSet(setOf(...items)).map(({ path, message }) => `${path.join('.')}: ${message}`);

const way = (...require: Criterion[]) => [{ option: 'way', title: 'One way', require }];
const house = (parts: Partial<Item>) => madeItem('duct-leakage-total', parts);
const system = (parts: Partial<Item>) => madeItem('supply-static', parts);

const read = 'measured.leakageAt25';
const cfm = (value: number): Limit => ({ kind: 'constant', value, unit: 'cfm' });
const percent = (value: number): Limit => ({ kind: 'constant', value, unit: '%' });
const fine: Criterion = { check: 'at-most', quantity: read, limit: cfm(100) };
const eight = { '1': 5, '2': 5, '3': 3, '4': 3, '5': 3, '6': 3, '7': 3, '8': 3 };
const at = 'items.0.options.0.require.0';

describe('a criterion that cannot be used', () => {
  it.each<[string, Criterion, string[]]>([
    ['no fault', fine, []],
    [
      'an unknown quantity',
      { check: 'at-most', quantity: 'house.colour', limit: cfm(1) },
      [`${at}.quantity: nobody knows a quantity "house.colour"`],
    ],
    [
      'an unknown quantity, only recorded',
      { check: 'recorded', quantity: 'house.colour' },
      [`${at}.quantity: nobody knows a quantity "house.colour"`],
    ],
    ['anything known, only recorded', { check: 'recorded', quantity: 'house.foundation' }, []],
    [
      'a text that is compared like a number',
      { check: 'at-least', quantity: 'house.foundation', limit: cfm(1) },
      [`${at}.quantity: "house.foundation" is not a number`],
    ],
    [
      'no limit anywhere',
      { check: 'at-most', quantity: read },
      [`${at}: neither the criterion nor the item has a limit`],
    ],
    [
      'a limit in another unit',
      { check: 'at-most', quantity: read, limit: percent(3) },
      [`${at}.limit.unit: the limit is in %, the quantity in cfm`],
    ],
    [
      'an air change rate where a flow is read',
      { check: 'at-most', quantity: read, limit: { kind: 'by-zone', unit: '1/h', zones: eight } },
      [`${at}.limit.unit: the limit is in 1/h, the quantity in cfm`],
    ],
    [
      'a flow per area, which comes out in cfm',
      { check: 'at-most', quantity: read, limit: { kind: 'per-area', value: 4, unit: 'cfm/100ft2' } },
      [],
    ],
    [
      'a lower limit above the upper',
      { check: 'between', quantity: read, low: cfm(60), high: cfm(50) },
      [`${at}.low: the low limit 60 is above the high limit 50`],
    ],
    ['equal limits', { check: 'between', quantity: read, low: cfm(50), high: cfm(50) }, []],
    [
      'limits in two other units',
      { check: 'between', quantity: read, low: percent(5), high: { kind: 'constant', value: 6, unit: 'Pa' } },
      [
        `${at}.low.unit: the limit is in %, the quantity in cfm`,
        `${at}.high.unit: the limit is in Pa, the quantity in cfm`,
      ],
    ],
    [
      'limits of which only one is a number: their order is not known',
      {
        check: 'between',
        quantity: read,
        low: cfm(9999),
        high: { kind: 'per-area', value: 1, unit: 'cfm/100ft2' },
      },
      [],
    ],
    [
      'the same the other way round',
      {
        check: 'between',
        quantity: read,
        low: { kind: 'per-area', value: 9, unit: 'cfm/100ft2' },
        high: cfm(1),
      },
      [],
    ],
    [
      'a share of something of another kind',
      { check: 'at-most-share-of', quantity: read, of: 'house.conditionedFloorArea', limit: percent(5) },
      [`${at}.of: "house.conditionedFloorArea" is not of the same kind as "measured.leakageAt25"`],
    ],
    [
      'a share whose limit is no share',
      { check: 'at-most-share-of', quantity: read, of: 'house.designedVentilation', limit: cfm(5) },
      [`${at}.limit.unit: the limit is in cfm, the quantity in %`],
    ],
    [
      'a share of something unknown',
      { check: 'share-between', quantity: read, of: 'house.colour', low: percent(90), high: percent(110) },
      [`${at}.of: nobody knows a quantity "house.colour"`],
    ],
    [
      'a balance with something unknown',
      { check: 'balanced-within', quantity: read, with: 'house.colour', limit: percent(10) },
      [`${at}.with: nobody knows a quantity "house.colour"`],
    ],
    [
      'a zone that is left out',
      {
        check: 'at-most',
        quantity: 'measured.envelope-leakage.airChangesAt50',
        limit: {
          kind: 'by-zone',
          unit: '1/h',
          zones: { '1': 5, '2': 5, '3A': 3, '3B': 3, '5': 3, '6': 3, '7': 3, '8': 3 },
        },
      },
      [`${at}.limit.zones: no limit for climate zone 3, 4`],
    ],
    [
      'a zone that stands by its three regimes',
      {
        check: 'at-most',
        quantity: 'measured.envelope-leakage.airChangesAt50',
        limit: {
          kind: 'by-zone',
          unit: '1/h',
          zones: { '1': 5, '2': 5, '3A': 3, '3B': 3, '3C': 4, '4': 3, '5': 3, '6': 3, '7': 3, '8': 3 },
        },
      },
      [],
    ],
    [
      'a formula over something unknown and over a text',
      {
        check: 'at-most',
        quantity: read,
        limit: {
          kind: 'formula',
          unit: 'cfm',
          constant: 0,
          terms: [
            { quantity: 'house.bedrooms', coefficient: 7.5 },
            { quantity: 'house.colour', coefficient: 1 },
            { quantity: 'house.foundation', coefficient: 1 },
          ],
        },
      },
      [
        `${at}.limit.terms.1.quantity: nobody knows a quantity "house.colour"`,
        `${at}.limit.terms.2.quantity: "house.foundation" is not a number`,
      ],
    ],
    [
      'a formula in another unit',
      {
        check: 'at-most',
        quantity: read,
        limit: {
          kind: 'formula',
          unit: 'Pa',
          constant: 0,
          terms: [{ quantity: 'house.bedrooms', coefficient: 1 }],
        },
      },
      [`${at}.limit.unit: the limit is in Pa, the quantity in cfm`],
    ],
    [
      'half of the limit of an item that there is not',
      { check: 'at-most', quantity: read, limit: { kind: 'factor-of', item: 'roof-leakage', factor: 0.5 } },
      [`${at}.limit.item: "roof-leakage" is not an item of this set with a limit of its own`],
    ],
  ])('%s', (_name, criterion, problems) => {
    expect(said(house({ options: way(criterion) }))).toEqual(problems);
  });

  it.each<[string, Criterion, string[]]>([
    ['yes', { check: 'is', quantity: 'house.hasDucts', value: true }, []],
    [
      'a word where yes or no is asked',
      { check: 'is', quantity: 'house.hasDucts', value: 'yes' },
      [`${at}.value: "house.hasDucts" is a boolean, not "yes"`],
    ],
    [
      'a number where a word is asked',
      { check: 'is', quantity: 'house.foundation', value: 3 },
      [`${at}.value: "house.foundation" is a string, not 3`],
    ],
    [
      'a word where a number is asked',
      { check: 'is', quantity: 'house.bedrooms', value: 'three' },
      [`${at}.value: "house.bedrooms" is a number, not "three"`],
    ],
    [
      'any word where the list of words is open',
      { check: 'is', quantity: 'house.foundation', value: 'slab' },
      [],
    ],
    [
      'a word that is not in the list',
      { check: 'is', quantity: 'house.ventilationKind', value: 'wind' },
      [`${at}.value: "wind" is none of none, exhaust, supply, balanced`],
    ],
    [
      'the second of several words, and a number',
      { check: 'one-of', quantity: 'house.ventilationKind', values: ['supply', 'wind', 4] },
      [
        `${at}.values.1: "wind" is none of none, exhaust, supply, balanced`,
        `${at}.values.2: "house.ventilationKind" is a string, not 4`,
      ],
    ],
    [
      'one of several, of a quantity that nobody knows',
      { check: 'one-of', quantity: 'house.colour', values: ['red'] },
      [`${at}.quantity: nobody knows a quantity "house.colour"`],
    ],
  ])('%s', (_name, criterion, problems) => {
    expect(said(house({ options: way(criterion) }))).toEqual(problems);
  });
});

describe('the limit of the item', () => {
  const open: Criterion = { check: 'at-most', quantity: read };

  it('is checked where a criterion falls back on it, at its own place', () => {
    expect(said(house({ limit: cfm(100), options: way(open) }))).toEqual([]);
    expect(said(house({ limit: percent(5), options: way(open) }))).toEqual([
      'items.0.limit.unit: the limit is in %, the quantity in cfm',
    ]);
  });

  it('as a share of another item’s has the unit of that, however far away, but not in a ring', () => {
    const of = (item: string, other: string): Item =>
      house({ item, limit: { kind: 'factor-of', item: other, factor: 0.5 }, options: way(open) });
    const end = (limit: Limit): Item => house({ item: 'end', limit, options: way({ ...fine }) });
    expect(said(of('one', 'two'), of('two', 'end'), end(cfm(100)))).toEqual([]);
    expect(
      said(of('one', 'two'), of('two', 'end'), end({ kind: 'per-area', value: 4, unit: 'cfm/100ft2' })),
    ).toEqual([]);
    expect(said(of('one', 'two'), of('two', 'end'), end(percent(5)))).toEqual([
      'items.0.limit.item: the limit is in %, the quantity in cfm',
      'items.1.limit.item: the limit is in %, the quantity in cfm',
    ]);
    const ring = (other: string, place: number) =>
      `items.${place}.limit.item: "${other}" is not an item of this set with a limit of its own`;
    expect(said(of('one', 'two'), of('two', 'one'))).toEqual([ring('two', 0), ring('one', 1)]);
    expect(said(of('one', 'one'))).toEqual([ring('one', 0)]);
    expect(said(of('one', 'end'), house({ item: 'end', options: way(fine) }))).toEqual([ring('end', 0)]);
  });
});

describe('every place of an item is looked at', () => {
  const unknown: Criterion = { check: 'recorded', quantity: 'house.colour' };
  const group = { title: 'A group', require: [fine, unknown] };
  const words = 'nobody knows a quantity "house.colour"';

  it.each<[string, Partial<Item>, string]>([
    ['where it applies', { appliesWhen: [unknown] }, 'appliesWhen.0.quantity'],
    ['where any of several makes it apply', { appliesWhenAny: [unknown] }, 'appliesWhenAny.0.quantity'],
    [
      'where a way exists',
      { options: [{ option: 'way', title: 'One way', when: [unknown], require: [fine] }] },
      'options.0.when.0.quantity',
    ],
    [
      'what a way asks',
      { options: [...way(fine), { option: 'other', ...group }] },
      'options.1.require.1.quantity',
    ],
    ['what exempts', { exemptions: [{ exemption: 'old', ...group }] }, 'exemptions.0.require.1.quantity'],
    ['what stops work', { stopWork: [{ ...group, source: unconfirmed }] }, 'stopWork.0.require.1.quantity'],
  ])('%s', (_name, parts, path) => {
    expect(said(house({ options: way(fine), ...parts }))).toEqual([`items.0.${path}: ${words}`]);
  });

  it('and the item that it stands in is counted', () => {
    expect(said(house({ options: way(fine) }), system({ options: way(unknown) }))).toEqual([
      `items.1.options.0.require.0.quantity: ${words}`,
    ]);
  });
});

describe('a key that stands twice', () => {
  it.each<[string, Item[], string[]]>([
    [
      'of an item',
      [house({ options: way(fine) }), system({ options: [] }), house({ options: way(fine) })],
      ['items.2.item: "duct-leakage-total" stands here twice'],
    ],
    [
      'of a way',
      [house({ options: [...way(fine), ...way(fine), ...way(fine)] })],
      [
        'items.0.options.1.option: "way" stands here twice',
        'items.0.options.2.option: "way" stands here twice',
      ],
    ],
    [
      'of an exemption',
      [
        house({
          options: way(fine),
          exemptions: [
            { exemption: 'old', title: 'Old', require: [fine] },
            { exemption: 'new', title: 'New', require: [fine] },
            { exemption: 'old', title: 'Old', require: [fine] },
          ],
        }),
      ],
      ['items.0.exemptions.2.exemption: "old" stands here twice'],
    ],
  ])('%s is told at its second place', (_name, items, problems) => {
    expect(said(...items)).toEqual(problems);
  });
});

describe('the error of a set', () => {
  it('says each problem on a line of its own, with the field where there is one', () => {
    const error = new RuleSetError([
      { file: 'set.yaml', line: 3, field: 'title', message: 'is missing' },
      { file: 'bath.yaml', line: 1, field: '', message: 'aliases are not allowed' },
    ]);
    expect(error.message).toBe('set.yaml:3: title: is missing\nbath.yaml:1: aliases are not allowed');
    expect(error.name).toBe('RuleSetError');
    expect(error.problems).toHaveLength(2);
  });

  it('has no occasion in a shipped set', () => expect(checkRuleSet(commonPractice)).toEqual([]));
});
