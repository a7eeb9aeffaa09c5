import { describe, expect, it } from 'vitest';
import type { Criterion, Item } from '../schema/index.ts';
import {
  band,
  cfm,
  confirmed,
  ducts,
  fan,
  first,
  judged,
  leak,
  madeItem,
  pascals,
  percent,
  room,
  statics,
  type Given,
} from '../test/made.ts';

describe('a comparison in words', () => {
  it.each<[string, Item, Given, string, string | null]>([
    [
      'within its most',
      ducts({ check: 'at-most', quantity: leak, limit: cfm(100) }),
      { measured: { leakageAt25: 90 } },
      '90 cfm; limit 100 cfm',
      null,
    ],
    [
      'beyond its most',
      ducts({ check: 'at-most', quantity: leak, limit: cfm(100) }),
      { measured: { leakageAt25: 100.4 } },
      '100.4 cfm; limit 100 cfm',
      'at most 100 cfm',
    ],
    [
      'below its least',
      ducts({ check: 'at-least', quantity: leak, limit: cfm(50) }),
      { measured: { leakageAt25: 49.96 } },
      '49.96 cfm; at least 50 cfm needed',
      'at least 50 cfm',
    ],
    [
      'at what has to be exceeded',
      ducts({ check: 'above', quantity: leak, limit: cfm(50) }),
      { measured: { leakageAt25: 50 } },
      '50 cfm; at least 50 cfm needed',
      'at least 50 cfm',
    ],
    [
      'between two',
      ducts({ check: 'between', quantity: leak, low: cfm(50), high: cfm(1200.5) }),
      { measured: { leakageAt25: 1300 } },
      '1,300 cfm; must be 50 to 1,200.5 cfm',
      '50 to 1,200.5 cfm',
    ],
    [
      'by the floor',
      ducts({
        check: 'at-least',
        quantity: leak,
        limit: { kind: 'per-area', value: 2.5, unit: 'cfm/100ft2' },
      }),
      { measured: { leakageAt25: 40 } },
      '40 cfm; at least 50 cfm (2.5 cfm per 100 ft² of conditioned floor) needed',
      'at least 50 cfm',
    ],
    [
      'by the climate zone, spoken per hour',
      ducts({
        check: 'at-most',
        quantity: 'measured.envelope-leakage.airChangesAt50',
        limit: { kind: 'by-zone', unit: '1/h', zones: { '4': 4, '5': 3, '5A': 2.5 } },
      }),
      { measured: { 'envelope-leakage.airChangesAt50': 2.6 } },
      '2.6 per hour; limit 2.5 per hour in this climate zone',
      'at most 2.5 per hour',
    ],
    [
      'without a unit',
      ducts({
        check: 'at-most',
        quantity: 'house.bedrooms',
        limit: { kind: 'constant', value: 2, unit: '1' },
      }),
      {},
      '3; limit 2',
      'at most 2',
    ],
    [
      'a yes',
      ducts({ check: 'is', quantity: 'house.hasDucts', value: false }),
      {},
      'a heating or cooling system has ducts: yes',
      'no',
    ],
    [
      'a no',
      ducts({ check: 'is', quantity: 'house.allDuctsInside', value: true }),
      {},
      'all ducts and air handlers visibly inside conditioned space: no',
      'yes',
    ],
    [
      'a word',
      ducts({ check: 'is', quantity: 'house.ventilationKind', value: 'supply' }),
      {},
      'kind of whole-house ventilation: balanced',
      'supply',
    ],
    [
      'a word of several parts',
      ducts({ check: 'one-of', quantity: 'house.foundation', values: ['slab', 'crawl-space'] }),
      { house: { foundation: 'half-open-crawl-space' } },
      'foundation: half open crawl space',
      'slab or crawl-space',
    ],
    [
      'a number that has to be one',
      ducts({ check: 'is', quantity: 'house.storeys', value: 2 }),
      {},
      'number of storeys: 1',
      '2',
    ],
    [
      'recorded',
      ducts({ check: 'recorded', quantity: leak }),
      { measured: { leakageAt25: 3 } },
      'total duct leakage at 25 Pa, all ducts of the house is recorded',
      null,
    ],
    [
      'without its sign',
      room({ check: 'at-most', quantity: 'measured.pressure', limit: pascals(3), magnitude: true }),
      { measured: { pressure: -3.04 } },
      '3.04 Pa; limit 3 Pa',
      'at most 3 Pa',
    ],
    [
      'with its sign',
      room({ check: 'at-most', quantity: 'measured.pressure', limit: pascals(3) }),
      { measured: { pressure: -30 } },
      '-30 Pa; limit 3 Pa',
      null,
    ],
  ])('%s', (_name, item, given, words, needed) => {
    expect(first(judged(item, given))).toMatchObject({ words, needed });
  });

  const share: Criterion = {
    check: 'at-most-share-of',
    quantity: 'measured.staticPressure',
    of: 'reported.supplyStatic',
    limit: percent(110),
  };
  const ofDesign: Criterion = {
    check: 'share-between',
    quantity: 'measured.supplyFlow',
    of: 'house.designedVentilation',
    low: percent(100),
    high: percent(120),
  };
  const ofOther: Criterion = {
    check: 'at-most-share-of',
    quantity: 'measured.supplyFlow',
    of: 'measured.exhaustFlow',
    limit: percent(110),
  };
  const ofRoom: Criterion = {
    check: 'at-most-share-of',
    quantity: 'measured.airflow',
    of: 'subject.designAirflow',
    limit: percent(110),
  };
  const balanced: Criterion = {
    check: 'balanced-within',
    quantity: 'measured.supplyFlow',
    with: 'measured.exhaustFlow',
    limit: percent(10),
  };
  const streams = (supplyFlow: number, exhaustFlow: number): Given => ({
    measured: { supplyFlow, exhaustFlow },
  });

  it.each<[string, Item, Given, string, string | null]>([
    [
      'a share of what was reported',
      statics(share),
      { reported: { supplyStatic: 0.085 }, measured: { staticPressure: 0.092 } },
      '0.092 in. w.c. is 108 % of the reported 0.085; limit 110 %',
      null,
    ],
    [
      'a share beyond its limit by a hair',
      statics(share),
      { reported: { supplyStatic: 0.085 }, measured: { staticPressure: 0.0936 } },
      '0.0936 in. w.c. is 110.1 % of the reported 0.085; limit 110 %',
      'at most 0.0935 in. w.c.',
    ],
    [
      'a share of a design, between two',
      fan(ofDesign),
      streams(64, 70),
      '64 cfm is 91 % of the designed 70; must be 100 to 120 %',
      '70 to 84 cfm',
    ],
    [
      'a share of another reading',
      fan(ofOther),
      streams(78, 70),
      '78 cfm is 111 % of the measured 70; limit 110 %',
      'at most 77 cfm',
    ],
    ['a share of nothing', fan(ofOther), streams(78, 0), '78 cfm; limit 0 cfm', 'at most 0 cfm'],
    [
      'two sides near each other',
      fan(balanced),
      streams(75, 70),
      'ventilation supply airflow and ventilation exhaust airflow are 75 and 70 cfm, 7 % apart; limit 10 %',
      null,
    ],
    [
      'two sides too far apart, the other one the larger',
      fan(balanced),
      streams(60, 70),
      'ventilation supply airflow and ventilation exhaust airflow are 60 and 70 cfm, 17 % apart; limit 10 %',
      'within 10 % of the ventilation exhaust airflow',
    ],
    [
      'two sides too far apart by a hair',
      fan(balanced),
      streams(77.1, 70),
      'ventilation supply airflow and ventilation exhaust airflow are 77.1 and 70 cfm, 10.1 % apart; limit 10 %',
      'within 10 % of the ventilation exhaust airflow',
    ],
    [
      'a side that stands still',
      fan(balanced),
      streams(0, 70),
      'ventilation supply airflow and ventilation exhaust airflow are 0 and 70 cfm, one of them is 0; limit 10 %',
      'within 10 % of the ventilation exhaust airflow',
    ],
    [
      'another side that stands still',
      fan(balanced),
      streams(70, 0),
      'ventilation supply airflow and ventilation exhaust airflow are 70 and 0 cfm, one of them is 0',
      null,
    ],
  ])('%s', (_name, item, given, words, needed) => {
    expect(first(judged(item, given))).toMatchObject({ words, needed });
  });

  it('a share of the room’s own design is of what was designed', () => {
    // no test of a system gives an airflow, so the other way round: the design beside a reported figure
    const item = statics({ ...ofRoom, quantity: 'reported.airflow' });
    const verdict = judged(item, { subject: { designAirflow: 1200 }, reported: { airflow: 1400 } });
    expect(first(verdict).words).toBe('1,400 cfm is 117 % of the designed 1,200; limit 110 %');
  });

  it('of a magnitude takes both sides without their signs', () => {
    const item = fan({ ...ofOther, magnitude: true });
    expect(first(judged(item, streams(-75, -70)))).toMatchObject({
      value: 75,
      high: expect.closeTo(77, 9),
      holds: true,
    });
  });

  it.each<[string, Item, Given, string]>([
    [
      'a fact that nobody entered',
      ducts({ check: 'is', quantity: 'house.hasDucts', value: true }),
      { house: { hasDucts: null } },
      'not entered in the house’s file: a heating or cooling system has ducts',
    ],
    [
      'a figure that was not reported',
      statics(share),
      { measured: { staticPressure: 0.1 } },
      'the installer has not reported the supply static pressure',
    ],
    [
      'a figure that is hidden',
      statics(share),
      { hidden: true, reported: { supplyStatic: 0.1 }, measured: { staticPressure: 0.1 } },
      'the reported supply static pressure stays hidden until this reading is signed',
    ],
    [
      'a reported zero',
      statics(share),
      { reported: { supplyStatic: 0 }, measured: { staticPressure: 0.1 } },
      'the reported supply static pressure is 0; ask the installer',
    ],
    [
      'a reported suction',
      statics(share),
      { reported: { supplyStatic: -0.1 }, measured: { staticPressure: 0.1 } },
      'the reported supply static pressure is -0.1; ask the installer',
    ],
    [
      'a reading that is not there',
      statics(share),
      { reported: { supplyStatic: 0.1 } },
      'not yet measured: supply static pressure',
    ],
    [
      'a reading that gives something else',
      fan(ofOther),
      { measured: { supplyFlow: 70 } },
      'the reading does not give the ventilation exhaust airflow',
    ],
    [
      'a reading that does not count',
      statics(share),
      {
        reported: { supplyStatic: 0.1 },
        measured: { staticPressure: 0.1 },
        doesNotCount: 'The manometer was out of calibration.',
      },
      'The manometer was out of calibration',
    ],
    [
      'a climate zone without a limit',
      ducts({
        check: 'at-most',
        quantity: 'measured.envelope-leakage.airChangesAt50',
        limit: { kind: 'by-zone', unit: '1/h', zones: { '4': 4 } },
      }),
      { measured: { 'envelope-leakage.airChangesAt50': 3 } },
      'the rule set has no limit for climate zone 5A',
    ],
  ])('%s', (_name, item, given, words) => {
    expect(first(judged(item, given))).toMatchObject({ words, holds: null, needed: null });
  });
});

describe('words beside a guard band', () => {
  const close = (criterion: Criterion, leakageAt25: number) =>
    first(judged(ducts(criterion), { measured: { leakageAt25 } }, { u: 5, decision: band }));

  it.each<[string, Criterion, number, string, string]>([
    [
      'below the most',
      { check: 'at-most', quantity: leak, limit: cfm(100) },
      95,
      '95 cfm; limit 100 cfm; within the limit, but not by the guard band of 10 cfm: at most 90 cfm is accepted',
      'at most 90 cfm',
    ],
    // a reading that has to grow brings its own share of uncertainty: 50 / (1 − 10 / 55)
    [
      'above the least',
      { check: 'at-least', quantity: leak, limit: cfm(50) },
      55,
      '55 cfm; at least 50 cfm needed; within the limit, but not by the guard band of 10 cfm: at least 61.12 cfm is accepted',
      'at least 61.12 cfm',
    ],
    [
      'beyond the limit itself',
      { check: 'at-most', quantity: leak, limit: cfm(100) },
      101,
      '101 cfm; limit 100 cfm',
      'at most 90 cfm',
    ],
  ])('%s', (_name, criterion, value, words, needed) => {
    expect(close(criterion, value)).toMatchObject({ words, needed, holds: false });
  });

  it('name no reading where the two bands leave none', () => {
    const found = close({ check: 'between', quantity: leak, low: cfm(90), high: cfm(100) }, 95);
    expect(found).toMatchObject({
      holds: false,
      words: '95 cfm; must be 90 to 100 cfm; within the limit, but not by the guard band of 10 cfm',
      needed: null,
    });
  });

  it('say nothing where it was kept', () => {
    expect(close({ check: 'at-most', quantity: leak, limit: cfm(100) }, 90)).toMatchObject({
      holds: true,
      words: '90 cfm; limit 100 cfm',
      guardBand: 10,
      needed: null,
    });
  });
});

describe('the inputs of a verdict', () => {
  const share: Criterion = {
    check: 'at-most-share-of',
    quantity: 'measured.staticPressure',
    of: 'reported.supplyStatic',
    limit: percent(110),
  };

  it('are listed once each, with unit and place, and empty where they are missing or hidden', () => {
    const item = {
      ...statics(share),
      appliesWhen: [{ check: 'is', quantity: 'subject.hasDucts', value: true } as const],
    };
    const inputs = (given: Given) => judged(item, given).trace.inputs;
    expect(inputs({ reported: { supplyStatic: 0.1 }, measured: { staticPressure: 0.09 } })).toEqual([
      { name: 'subject.hasDucts', label: 'the system has ducts', value: true, unit: null, from: 'subject' },
      {
        name: 'measured.staticPressure',
        label: 'supply static pressure',
        value: 0.09,
        unit: 'inH2O',
        from: 'measured',
      },
      {
        name: 'reported.supplyStatic',
        label: 'supply static pressure',
        value: 0.1,
        unit: 'inH2O',
        from: 'reported',
      },
    ]);
    const hidden = inputs({ hidden: true, reported: { supplyStatic: 0.1 }, measured: {} });
    expect(hidden.map(({ value }) => value)).toEqual([true, null, null]);
  });
});

describe('confirmed sources', () => {
  it('are traced with each way', () => {
    const item = madeItem('duct-leakage-total', {
      options: [
        {
          option: 'way',
          title: 'One way',
          source: confirmed,
          require: [{ check: 'recorded', quantity: leak }],
        },
      ],
    });
    expect(judged(item, {}).trace.options[0]).toMatchObject({
      option: 'way',
      title: 'One way',
      source: confirmed,
      verdict: 'incomplete',
    });
  });
});
