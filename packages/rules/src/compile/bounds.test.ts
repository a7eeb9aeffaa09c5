import { describe, expect, it } from 'vitest';
import type { Criterion, Item, Limit } from '../schema/index.ts';
import {
  cfm,
  ducts,
  fan,
  first,
  type Given,
  judged,
  leak,
  madeItem,
  percent,
  room,
  setOf,
  way,
} from '../test/made.ts';
import { compileLimit } from './limit.ts';
import { compileQuantity } from './quantity.ts';

const perArea: Limit = { kind: 'per-area', value: 4, unit: 'cfm/100ft2' };
const formula = (constant: number, ...terms: [string, number][]): Limit => ({
  kind: 'formula',
  unit: 'cfm',
  constant,
  terms: terms.map(([quantity, coefficient]) => ({ quantity, coefficient })),
});
const atMost = (limit: Limit): Criterion => ({ check: 'at-most', quantity: leak, limit });
const read = { measured: { leakageAt25: 70 } };

describe('a limit', () => {
  const zones: Limit = { kind: 'by-zone', unit: '1/h', zones: { '4': 4, '4C': 3.5, '5': 3 } };
  const envelope: Criterion = {
    check: 'at-most',
    quantity: 'measured.envelope-leakage.airChangesAt50',
    limit: zones,
  };
  const inZone = (climateZone: string): Given => ({
    house: { climateZone },
    measured: { 'envelope-leakage.airChangesAt50': 2 },
  });

  it.each<[string, Item, Given, number]>([
    ['by area grows with the floor: 2,000 ft² × 4 / 100', ducts(atMost(perArea)), read, 80],
    ['by zone is that of the zone with its moisture', ducts(envelope), inZone('4C'), 3.5],
    ['by zone is that of the zone’s number otherwise', ducts(envelope), inZone('4A'), 4],
    ['by zone is that of the number alone', ducts(envelope), inZone('5'), 3],
    // 10 + 0.01 × 2,000 + 7.5 × 3
    [
      'by formula adds what it names',
      ducts(atMost(formula(10, ['house.conditionedFloorArea', 0.01], ['house.bedrooms', 7.5]))),
      read,
      52.5,
    ],
    ['by formula may take off', ducts(atMost(formula(100, ['house.bedrooms', -10]))), read, 70],
  ])('%s', (_what, item, given, high) => {
    expect(first(judged(item, given)).high).toBeCloseTo(high, 9);
  });

  const half = (limit: Limit, factor = 0.5): Item[] => [
    ducts(atMost({ kind: 'factor-of', item: 'other', factor })),
    { ...ducts({ check: 'recorded', quantity: leak }), item: 'other', limit },
  ];

  it('may be a share of another item’s, of any kind', () => {
    const of = ([item, other]: Item[]) => first(judged(item!, read, { others: [other!] })).high;
    expect(of(half(cfm(150)))).toBe(75);
    expect(of(half(perArea, 0.25))).toBe(20);
    expect(of(half(formula(40, ['house.bedrooms', 20]), 0.5))).toBe(50);
  });

  it.each<[string, Item[], Given, string]>([
    [
      'the floor',
      [ducts(atMost(perArea))],
      { house: { conditionedFloorArea: null }, ...read },
      'not entered in the house’s file: conditioned floor area',
    ],
    [
      'the zone',
      [ducts(envelope)],
      { ...inZone('5'), house: { climateZone: null } },
      'not entered in the house’s file: climate zone',
    ],
    [
      'a zone that it knows',
      [ducts(envelope)],
      inZone('6A'),
      'the rule set has no limit for climate zone 6A',
    ],
    [
      'a term',
      [ducts(atMost(formula(1, ['house.bedrooms', 7.5])))],
      { house: { bedrooms: null }, ...read },
      'not entered in the house’s file: number of bedrooms',
    ],
    [
      'a term that is no number',
      [ducts(atMost(formula(1, ['house.bedrooms', 7.5])))],
      { house: { bedrooms: NaN }, ...read },
      'not entered in the house’s file: number of bedrooms',
    ],
    [
      'the floor of another item’s limit',
      half(perArea),
      { house: { conditionedFloorArea: null }, ...read },
      'not entered in the house’s file: conditioned floor area',
    ],
    [
      'the floor of its lower end',
      [ducts({ check: 'between', quantity: leak, low: perArea, high: cfm(100) })],
      { house: { conditionedFloorArea: null }, ...read },
      'not entered in the house’s file: conditioned floor area',
    ],
    [
      'the floor of its upper end',
      [ducts({ check: 'between', quantity: leak, low: cfm(1), high: perArea })],
      { house: { conditionedFloorArea: null }, ...read },
      'not entered in the house’s file: conditioned floor area',
    ],
  ])('waits for %s', (_what, [item, ...others], given, words) => {
    const verdict = judged(item!, given, { others });
    expect(verdict.status).toBe('waiting');
    expect(first(verdict)).toMatchObject({ words, holds: null, low: null, high: null });
  });

  it.each<[string, Criterion['check']]>([
    ['upper', 'at-most-share-of'],
    ['both', 'share-between'],
    ['balance', 'balanced-within'],
  ])('of a share (%s) waits as well', (_which, check) => {
    const share: Limit = {
      kind: 'formula',
      unit: '%',
      constant: 100,
      terms: [{ quantity: 'house.bedrooms', coefficient: 1 }],
    };
    const base = {
      quantity: 'measured.supplyFlow',
      of: 'measured.exhaustFlow',
      with: 'measured.exhaustFlow',
    };
    const criterion = {
      ...base,
      check,
      limit: share,
      ...(check === 'share-between' ? { low: share, high: percent(200) } : {}),
    };
    const item = fan(criterion as unknown as Criterion);
    const given = { house: { bedrooms: null }, measured: { supplyFlow: 70, exhaustFlow: 70 } };
    expect(judged(item, given)).toMatchObject({ status: 'waiting' });
    expect(first(judged(item, given))).toMatchObject({ value: 70, low: null, high: null, holds: null });
  });

  it('that cannot be compiled says whose it is', () => {
    const item = ducts(atMost(cfm(1)));
    const set = setOf(item);
    expect(() => compileLimit({ kind: 'factor-of', item: 'roof', factor: 1 }, item, set)).toThrow(
      'duct-leakage-total: "roof" has no limit of its own',
    );
    expect(() => compileLimit({ kind: 'factor-of', item: item.item, factor: 1 }, item, set)).toThrow(
      'has no limit of its own',
    );
    expect(() => compileQuantity('house.colour', item)).toThrow(
      'duct-leakage-total: nobody knows a quantity "house.colour"',
    );
  });
});

describe('the room for binary arithmetic', () => {
  const between = (limit: number) =>
    ducts({ check: 'between', quantity: leak, low: cfm(limit), high: cfm(limit) });

  it.each([0.05, 100, 1_000_000])('is a billionth of a limit of %s, on either side', (limit) => {
    const status = (share: number) =>
      judged(between(limit), { measured: { leakageAt25: limit * (1 + share) } }).status;
    expect([0, 5e-10, -5e-10].map(status)).toEqual(['pass', 'pass', 'pass']);
    expect([2e-9, -2e-9].map(status)).toEqual(['fail', 'fail']);
  });

  it('lets nothing above a threshold that has to be exceeded through by arithmetic', () => {
    const above = ducts({ check: 'above', quantity: leak, limit: cfm(100) });
    const status = (leakageAt25: number) => judged(above, { measured: { leakageAt25 } }).status;
    expect([100, 100 * (1 + 5e-10), 100.001].map(status)).toEqual(['fail', 'fail', 'pass']);
  });
});

describe('the uncertainty of a comparison', () => {
  const spreadOf = (item: Item, given: Given, u = 3) => first(judged(item, given, { u })).standardUncertainty;
  const streams = { measured: { supplyFlow: 70, exhaustFlow: 80 } };
  const supply = (limit: Limit): Item => fan({ check: 'at-most', quantity: 'measured.supplyFlow', limit });

  it.each<[string, Item, number | null]>([
    ['is the reading’s where the limit is given', supply(cfm(100)), 3],
    // √(3² + (2 × 3)²)
    ['holds that of a reading in the limit', supply(formula(0, ['measured.exhaustFlow', 2])), Math.sqrt(45)],
    ['holds none of the house’s facts', supply(formula(0, ['house.designedVentilation', 2])), 3],
    // √(3² + (1.1 × 3)²)
    [
      'holds that of the reading it is a share of',
      fan({
        check: 'at-most-share-of',
        quantity: 'measured.supplyFlow',
        of: 'measured.exhaustFlow',
        limit: percent(110),
      }),
      Math.hypot(3, 3.3),
    ],
    [
      'holds none of a design that it is a share of',
      fan({
        check: 'at-most-share-of',
        quantity: 'measured.supplyFlow',
        of: 'house.designedVentilation',
        limit: percent(110),
      }),
      3,
    ],
    // the nearer end of the balance: 80 / 1.1
    [
      'holds that of the other side of a balance',
      fan({
        check: 'balanced-within',
        quantity: 'measured.supplyFlow',
        with: 'measured.exhaustFlow',
        limit: percent(10),
      }),
      Math.hypot(3, 3 / 1.1),
    ],
  ])('%s', (_what, item, u) => {
    expect(spreadOf(item, streams)).toBeCloseTo(u!, 9);
  });

  it('holds that of a figure which the installer reported: 10 % of 80 as a rectangle', () => {
    const item = supply(formula(0, ['reported.exhaustFlow', 1]));
    expect(spreadOf(item, { ...streams, reported: { exhaustFlow: 80 } })).toBeCloseTo(
      Math.hypot(3, 8 / Math.sqrt(3)),
      9,
    );
  });

  it('holds half of it, where the limit is half of such a one', () => {
    const other = { ...supply(cfm(1)), item: 'other', limit: formula(0, ['measured.exhaustFlow', 2]) };
    const item = supply({ kind: 'factor-of', item: 'other', factor: 0.5 });
    const found = first(judged(item, streams, { u: 3, others: [other] }));
    expect(found).toMatchObject({ high: 80 });
    expect(found.standardUncertainty).toBeCloseTo(Math.hypot(3, 3), 9);
  });

  it('is not known of a share of nothing, nor where the reading’s is not', () => {
    const item = fan({
      check: 'at-most-share-of',
      quantity: 'measured.supplyFlow',
      of: 'measured.exhaustFlow',
      limit: percent(110),
    });
    expect(
      first(judged(item, { measured: { supplyFlow: 70, exhaustFlow: 0 } }, { u: 3 })).standardUncertainty,
    ).toBeNull();
    expect(first(judged(item, streams)).standardUncertainty).toBeNull();
  });
});

describe('what an item looks at', () => {
  it('may be a result of the house, asked for from a room', () => {
    const item = room({
      check: 'at-most',
      quantity: 'measured.duct-leakage-total.leakageAt25',
      limit: cfm(100),
    });
    const verdict = judged(item, { measured: { 'duct-leakage-total.leakageAt25': 120 } });
    expect(first(verdict)).toMatchObject({ value: 120, holds: false });
    expect(verdict.takes[0]!.reading).toMatchObject({
      name: 'measured.duct-leakage-total.leakageAt25',
      value: 100,
    });
    expect(verdict.trace.readingIds).toEqual(['duct-leakage-total-leakageAt25']);
  });

  it('may be scaled for the house, and is then asked for as it is read', () => {
    const item = room({
      check: 'at-most',
      quantity: 'measured.duct-leakage-total.leakagePerArea',
      limit: { kind: 'constant', value: 4, unit: 'cfm/100ft2' },
    });
    const { takes } = judged(item, { measured: { 'duct-leakage-total.leakagePerArea': 5 } });
    // 4 cfm per 100 ft² of 2,000 ft²
    expect(takes[0]).toMatchObject({
      reading: { name: 'measured.duct-leakage-total.leakageAt25', value: 80, unit: 'cfm' },
    });
  });

  it('without the house’s size is asked for as it is compared', () => {
    const item = ducts({
      check: 'at-most',
      quantity: 'measured.leakagePerArea',
      limit: { kind: 'constant', value: 4, unit: 'cfm/100ft2' },
    });
    const { takes } = judged(item, {
      house: { conditionedFloorArea: null },
      measured: { leakagePerArea: 5 },
    });
    expect(takes[0]).toMatchObject({
      reading: { name: 'measured.leakagePerArea', value: 4, unit: 'cfm/100ft2' },
    });
  });

  it.each([NaN, Infinity, -Infinity])('is a gap where a reading gives %s', (leakageAt25) => {
    expect(first(judged(ducts(atMost(cfm(100))), { measured: { leakageAt25 } })).words).toBe(
      'the reading does not give the total duct leakage at 25 Pa, all ducts of the house',
    );
  });

  it.each([null, NaN, Infinity])('is a gap where the installer’s figure is %s', (exhaustFlow) => {
    const item = fan({
      check: 'at-most-share-of',
      quantity: 'measured.exhaustFlow',
      of: 'reported.exhaustFlow',
      limit: percent(110),
    });
    expect(first(judged(item, { reported: { exhaustFlow }, measured: { exhaustFlow: 70 } })).words).toBe(
      'the installer has not reported the exhaust airflow',
    );
  });

  it('hides only the figures that are hidden', () => {
    const item = madeItem('supply-static', {
      options: way({
        check: 'at-most-share-of',
        quantity: 'measured.staticPressure',
        of: 'reported.supplyStatic',
        limit: percent(110),
      }),
    });
    const given = { reported: { supplyStatic: 0.1 }, measured: { staticPressure: 0.1 } };
    expect(judged(item, given).status).toBe('pass');
    expect(judged(item, { ...given, hidden: true }).status).toBe('waiting');
  });
});
