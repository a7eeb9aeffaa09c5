import { describe, expect, it } from 'vitest';
import type { Criterion, Item } from '../schema/index.ts';
import {
  band,
  cfm,
  ducts,
  fan,
  type Given,
  judged,
  leak,
  madeItem,
  pascals,
  percent,
  room,
  statics,
  way,
} from '../test/made.ts';
import type { DecisionRule, Take } from '../types.ts';

type Reading = Take['reading'];

const readingsOf = (item: Item, given: Given, more: { u?: number; decision?: DecisionRule } = {}) =>
  judged(item, given, more).takes.map(({ reading }) => reading && [reading.bound, reading.value]);

const guarded = { u: 5, decision: band };

describe('the reading that would pass', () => {
  const at = (value: number) => ({ measured: { leakageAt25: value } });
  const pressure = (value: number) => ({ measured: { pressure: value } });
  const atMost = (value: number): Item =>
    room({ check: 'at-most', quantity: 'measured.pressure', limit: pascals(value) });

  it.each<[string, Item, Given, [string, number]]>([
    ['is the most', ducts({ check: 'at-most', quantity: leak, limit: cfm(100) }), at(110), ['at-most', 100]],
    [
      'is the least',
      ducts({ check: 'at-least', quantity: leak, limit: cfm(100) }),
      at(90),
      ['at-least', 100],
    ],
    [
      'is above what has to be exceeded',
      ducts({ check: 'above', quantity: leak, limit: cfm(100) }),
      at(90),
      ['above', 100],
    ],
    ['is the number itself', ducts({ check: 'is', quantity: leak, value: 100 }), at(90), ['exactly', 100]],
    [
      'is the nearer end from above',
      ducts({ check: 'between', quantity: leak, low: cfm(50), high: cfm(100) }),
      at(110),
      ['at-most', 100],
    ],
    [
      'is the nearer end from below',
      ducts({ check: 'between', quantity: leak, low: cfm(50), high: cfm(100) }),
      at(40),
      ['at-least', 50],
    ],
    ['may be suction', atMost(-3), pressure(-1), ['at-most', -3]],
  ])('%s', (_what, item, given, reading) => {
    expect(readingsOf(item, given)).toEqual([reading]);
  });

  // U = 10 at the reading that failed; a reading that has to grow brings its share of it: 100 / (1 − 10 / 90)
  it.each<[string, Item, Given, [string, number]]>([
    [
      'the most, less the guard band',
      ducts({ check: 'at-most', quantity: leak, limit: cfm(100) }),
      at(110),
      ['at-most', 90],
    ],
    [
      'nothing at all, where the guard band is all there is',
      ducts({ check: 'at-most', quantity: leak, limit: cfm(10) }),
      at(110),
      ['at-most', 0],
    ],
    [
      'the least, more by the share that grows with it',
      ducts({ check: 'at-least', quantity: leak, limit: cfm(100) }),
      at(90),
      ['at-least', 112.5],
    ],
    [
      'from suction, more by the band itself',
      room({ check: 'at-least', quantity: 'measured.pressure', limit: pascals(5) }),
      pressure(-2),
      ['at-least', 15],
    ],
    [
      'from no pressure, more by the band itself',
      room({ check: 'at-least', quantity: 'measured.pressure', limit: pascals(5) }),
      pressure(0),
      ['at-least', 15],
    ],
    ['more suction still', atMost(-3), pressure(-1), ['at-most', -13]],
    [
      'between the two bands where they just meet',
      ducts({ check: 'between', quantity: leak, low: cfm(80), high: cfm(100) }),
      at(110),
      ['at-most', 90],
    ],
  ])('with a guard band is %s', (_what, item, given, [bound, value]) => {
    expect(readingsOf(item, given, guarded)).toEqual([[bound, expect.closeTo(value, 9)]]);
  });

  it.each<[string, Item, Given]>([
    ['a limit smaller than the band', ducts({ check: 'at-most', quantity: leak, limit: cfm(9) }), at(110)],
    [
      'two bands that overlap',
      ducts({ check: 'between', quantity: leak, low: cfm(81), high: cfm(100) }),
      at(110),
    ],
    [
      'a reading that is all uncertainty',
      ducts({ check: 'at-least', quantity: leak, limit: cfm(100) }),
      at(10),
    ],
    [
      'a reading less than its uncertainty',
      ducts({ check: 'at-least', quantity: leak, limit: cfm(100) }),
      at(5),
    ],
  ])('cannot be told of %s', (_what, item, given) => {
    expect(readingsOf(item, given, guarded)).toEqual([null]);
  });

  it('cannot be told of a fact beside it, which closes the way', () => {
    const item = ducts(
      { check: 'is', quantity: 'house.allDuctsInside', value: true },
      { check: 'at-most', quantity: leak, limit: cfm(100) },
    );
    expect(readingsOf(item, at(110))).toEqual([]);
  });

  it('is told once for each of several', () => {
    const item = fan(
      { check: 'at-most', quantity: 'measured.supplyFlow', limit: cfm(60) },
      { check: 'at-least', quantity: 'measured.exhaustFlow', limit: cfm(90) },
      { check: 'at-least', quantity: 'measured.exhaustFlow', limit: cfm(10) },
    );
    expect(readingsOf(item, { measured: { supplyFlow: 70, exhaustFlow: 80 } })).toEqual([
      ['at-most', 60],
      ['at-least', 90],
    ]);
  });
});

describe('the reading that another way would take', () => {
  const failing: Criterion = { check: 'at-most', quantity: 'measured.supplyFlow', limit: cfm(50) };
  const other = (...require: Criterion[]): Item =>
    madeItem('whole-house-ventilation', {
      options: [...way(failing), { option: 'other', title: 'The other way', require }],
    });
  const given = { measured: { supplyFlow: 60 }, reported: { exhaustFlow: 80 } };
  const exhaust = { quantity: 'measured.exhaustFlow' };
  const named = (criterion: Criterion): Reading[] =>
    judged(other(criterion), given).takes.map(({ reading }) => reading);

  it.each<[string, Criterion, [string, number] | null]>([
    ['its most', { check: 'at-most', ...exhaust, limit: cfm(40) }, ['at-most', 40]],
    ['its least', { check: 'at-least', ...exhaust, limit: cfm(40) }, ['at-least', 40]],
    ['what it has to exceed', { check: 'above', ...exhaust, limit: cfm(40) }, ['above', 40]],
    [
      'the lower of two ends',
      { check: 'between', ...exhaust, low: cfm(40), high: cfm(90) },
      ['at-least', 40],
    ],
    [
      'its share of what was reported: 110 % of 80',
      { check: 'at-most-share-of', ...exhaust, of: 'reported.exhaustFlow', limit: percent(110) },
      ['at-most', 88],
    ],
    [
      'its share of what was designed: 90 % of 70',
      {
        check: 'share-between',
        ...exhaust,
        of: 'house.designedVentilation',
        low: percent(90),
        high: percent(120),
      },
      ['at-least', 63],
    ],
    [
      'nothing of a share of what is not known',
      { check: 'at-most-share-of', ...exhaust, of: 'reported.supplyFlow', limit: percent(110) },
      null,
    ],
    [
      'nothing of a balance, whose other side may be the wrong one',
      { check: 'balanced-within', ...exhaust, with: 'house.designedVentilation', limit: percent(10) },
      null,
    ],
    ['nothing where it is only to be recorded', { check: 'recorded', ...exhaust }, null],
  ])('is %s', (_what, criterion, reading) => {
    const [, second] = named(criterion);
    if (reading === null) expect(second).toBeNull();
    else
      expect(second).toMatchObject({
        name: 'measured.exhaustFlow',
        bound: reading[0],
        value: expect.closeTo(reading[1], 9),
      });
  });

  it('leaves out what that way has already', () => {
    const item = other(
      { check: 'at-most', quantity: 'measured.supplyFlow', limit: cfm(70) },
      { check: 'at-most', ...exhaust, limit: cfm(40) },
    );
    // it was begun, so it waits and takes nothing
    expect(judged(item, given)).toMatchObject({ status: 'waiting', takes: [] });
  });
});

describe('the nearest way', () => {
  const two = (one: number, other: number): Item =>
    madeItem('whole-house-ventilation', {
      options: [
        {
          option: 'one',
          title: 'One',
          require: [{ check: 'at-most', quantity: 'measured.supplyFlow', limit: cfm(one) }],
        },
        {
          option: 'other',
          title: 'Other',
          require: [{ check: 'at-most', quantity: 'measured.exhaustFlow', limit: cfm(other) }],
        },
      ],
    });
  const order = (item: Item, given: Given) => judged(item, given).takes.map(({ nextOption }) => nextOption);
  const streams = (supplyFlow: number, exhaustFlow: number) => ({ measured: { supplyFlow, exhaustFlow } });

  it('is that with the smaller change, as a share of what is needed', () => {
    // 110 to 100 is a tenth, 55 to 40 is more than a third
    expect(order(two(100, 40), streams(110, 55))).toEqual([null, 'other']);
    expect(order(two(40, 100), streams(55, 110))).toEqual([null, 'one']);
    expect(order(two(40, 100), streams(44, 150))).toEqual([null, 'other']);
  });

  it('is never one of which no reading can be told, when there is another', () => {
    const item: Item = {
      ...two(10, 40),
      options: [
        {
          option: 'untold',
          title: 'Untold',
          require: [
            {
              check: 'balanced-within',
              quantity: 'measured.supplyFlow',
              with: 'measured.exhaustFlow',
              limit: percent(1),
            },
            { check: 'is', quantity: 'measured.supplyFlow', value: 'x' },
          ],
        },
        ...two(1, 40).options.slice(1),
      ],
    };
    const { takes } = judged(item, streams(60, 80));
    expect(takes[0]).toMatchObject({ nextOption: null, reading: { value: 40 } });
    expect(takes.at(-1)).toMatchObject({ nextOption: 'untold', reading: null });
  });

  it('is judged by its worst reading, also where nothing is to be left', () => {
    const item = madeItem('whole-house-ventilation', {
      options: [
        {
          option: 'both',
          title: 'Both',
          require: [
            { check: 'at-most', quantity: 'measured.supplyFlow', limit: cfm(59) },
            { check: 'at-most', quantity: 'measured.exhaustFlow', limit: cfm(10) },
          ],
        },
        {
          option: 'none',
          title: 'None',
          require: [{ check: 'at-most', quantity: 'measured.supplyFlow', limit: cfm(0) }],
        },
      ],
    });
    // both: 80 to 10 is seven times; none: 60 to 0 counts as sixty times
    expect(order(item, streams(60, 80))).toEqual([null, null, 'none']);
  });

  it('needs a reported figure that is there', () => {
    const item = statics({
      check: 'at-most-share-of',
      quantity: 'measured.staticPressure',
      of: 'reported.supplyStatic',
      limit: percent(110),
    });
    expect(readingsOf(item, { reported: { supplyStatic: 0.1 }, measured: { staticPressure: 0.2 } })).toEqual([
      ['at-most', expect.closeTo(0.11, 9)],
    ]);
  });
});

describe('an exemption', () => {
  const item: Item = {
    ...ducts({ check: 'at-most', quantity: leak, limit: cfm(100) }),
    exemptions: [
      {
        exemption: 'open',
        title: 'Open',
        keepsOpen: false,
        require: [{ check: 'recorded', quantity: 'measured.envelope-leakage.airChangesAt50' }],
      },
      {
        exemption: 'inside',
        title: 'Inside',
        require: [{ check: 'is', quantity: 'house.allDuctsInside', value: true }],
      },
      { exemption: 'tight', title: 'Tight', require: [{ check: 'at-most', quantity: leak, limit: cfm(20) }] },
    ],
  };

  it('is offered only where readings alone would open it', () => {
    expect(
      judged(item, { measured: { leakageAt25: 110 } }).takes.map(({ nextOption }) => nextOption),
    ).toEqual([null, 'tight']);
  });
});
