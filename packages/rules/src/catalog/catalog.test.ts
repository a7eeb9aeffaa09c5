import { testDefinitions } from '@countercheck/measurement';
import { describe, expect, it } from 'vitest';
import type { Facts, SubjectFacts } from '../types.ts';
import { findEntry, fixedEntries, measuredEntries } from './index.ts';
import { rawBehind } from './raw.ts';

type Asker = Parameters<typeof findEntry>[1];

describe('a named quantity', () => {
  const house: Asker = { subject: 'house', tests: ['duct-leakage-total'] };
  const system: Asker = { subject: 'system', tests: ['supply-static', 'return-static'] };

  it.each([
    ['house.conditionedFloorArea', house, 'house', 'floorArea', 'conditioned floor area'],
    ['house.bedrooms', system, 'house', 'count', 'number of bedrooms'],
    [
      'subject.ductsInside',
      system,
      'subject',
      'yes-no',
      'its ducts and air handler are visibly inside conditioned space',
    ],
    ['reported.supplyStatic', system, 'reported', 'staticPressure', 'supply static pressure'],
    [
      'measured.leakageAt25',
      house,
      'measured',
      'airflow',
      'total duct leakage at 25 Pa, all ducts of the house',
    ],
    ['measured.staticPressure', system, 'measured', 'staticPressure', 'supply static pressure'],
    [
      'measured.envelope-leakage.airChangesAt50',
      system,
      'measured',
      'airChangeRate',
      'air changes per hour at 50 Pa',
    ],
  ])('%s is what an item may look at', (name, asker, from, kind, label) => {
    expect(findEntry(name, asker)).toMatchObject({ from, kind, label });
  });

  it.each([
    ['house.colour', house, 'nobody knows a quantity "house.colour"'],
    ['conditionedFloorArea', house, 'nobody knows a quantity "conditionedFloorArea"'],
    ['subject.ductsInside', house, '"subject.ductsInside" is not known of a house'],
    ['reported.exhaustFlow', system, '"reported.exhaustFlow" is not known of a system'],
    ['measured.', house, 'none of the tests duct-leakage-total gives a house ""'],
    ['measured.leakage', system, 'none of the tests supply-static, return-static gives a system "leakage"'],
    ['measured.roof-leakage.flow', house, 'there is no test "roof-leakage"'],
    ['measured.envelope-leakage.flow', house, 'the test "envelope-leakage" gives the house no "flow"'],
    [
      'measured.supply-static.staticPressure',
      system,
      'the test "supply-static" gives the house no "staticPressure"',
    ],
  ])('%s is refused in words', (name, asker, words) => {
    expect(findEntry(name, asker)).toBe(words);
  });

  it('of the installer is spoken of without a room where several kinds of room share it', () => {
    const labelOf = (name: string) => fixedEntries.find((each) => each.name === name)?.label;
    expect(labelOf('reported.exhaustFlow')).toBe('exhaust airflow');
    expect(labelOf('reported.supplyFlow')).toBe('supply airflow');
    expect(labelOf('reported.airflow')).toBe('airflow of the air handler');
  });

  it('stands in the catalogue once, and every result of every test does', () => {
    const names = fixedEntries.map(({ name }) => name);
    expect(new Set(names).size).toBe(names.length);
    for (const { key, subject, gives } of Object.values(testDefinitions))
      for (const result of gives)
        expect(measuredEntries).toContainEqual(
          expect.objectContaining({ test: key, subjects: [subject], name: `measured.${result.key}` }),
        );
  });
});

describe('what a rater reads behind a scaled result', () => {
  const subject: SubjectFacts = {
    id: 'b1',
    kind: 'bedroom',
    label: 'Bedroom',
    facts: { supplyFlow: 80 },
    reported: {},
    reportedHidden: false,
  };
  const facts = (house: Facts['house'], measured: Facts['measured'] = {}): Facts => ({
    house,
    subjects: [subject],
    measured,
  });
  const flowOf = (value: number): Facts['measured'] => ({
    'bedroom-relief': {
      b1: {
        values: {
          supplyFlow: {
            key: 'supplyFlow',
            label: '',
            quantity: 'airflow',
            value,
            unit: 'cfm',
            standardUncertainty: null,
            expandedUncertainty: null,
            coverageFactor: null,
          },
        },
        counts: true,
        whyNot: null,
        remarks: [],
        steps: [],
        readingIds: [],
      },
    },
  });

  it('of air changes is the flow at 50 Pa, by the volume: 16,000 ft³ / 60', () => {
    const behind = rawBehind('envelope-leakage', 'airChangesAt50')!;
    expect(behind.key).toBe('flowAt50');
    expect(behind.scale(facts({ conditionedVolume: 16_000 }), subject)).toBeCloseTo(266.6667, 4);
  });

  it.each(['duct-leakage-rough', 'duct-leakage-total', 'duct-leakage-outdoors'] as const)(
    'of %s per 100 ft² is the leakage, by the floor: 2,000 ft² / 100',
    (test) => {
      const behind = rawBehind(test, 'leakagePerArea')!;
      expect(behind.key).toBe('leakageAt25');
      expect(behind.scale(facts({ conditionedFloorArea: 2000 }), subject)).toBe(20);
    },
  );

  it('of a bedroom’s openings is their area, by the airflow that was read with them before that of the plan', () => {
    const behind = rawBehind('bedroom-relief', 'freeAreaPerFlow')!;
    expect(behind.key).toBe('freeArea');
    expect(behind.scale(facts({}, flowOf(95)), subject)).toBe(95);
    expect(behind.scale(facts({}, flowOf(0)), subject)).toBe(80);
    expect(behind.scale(facts({}), subject)).toBe(80);
    expect(behind.scale(facts({}, { 'bedroom-relief': {} }), subject)).toBe(80);
    expect(behind.scale(facts({}), { ...subject, facts: {} })).toBeNull();
  });

  it.each([undefined, null, 0, -2000, NaN, Infinity, '2000', true])(
    'is not known where the house’s size is %s',
    (size) => {
      const house = { conditionedFloorArea: size, conditionedVolume: size } as Facts['house'];
      expect(rawBehind('duct-leakage-total', 'leakagePerArea')!.scale(facts(house), subject)).toBeNull();
      expect(rawBehind('envelope-leakage', 'airChangesAt50')!.scale(facts(house), subject)).toBeNull();
    },
  );

  it('is the result itself where nothing scales it', () => {
    expect(rawBehind('duct-leakage-total', 'leakageAt25')).toBeNull();
    expect(rawBehind('supply-static', 'staticPressure')).toBeNull();
  });
});
