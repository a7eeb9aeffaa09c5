import { describe, expect, it } from 'vitest';
import type { HouseFile } from '@countercheck/assessment';
import { testPlaces } from './test-places.ts';

const system = (id: string, hasDucts = true) => ({
  id,
  label: id,
  hasDucts,
  ductsInside: false,
  designAirflowCfm: null,
});
const file = (ventilatorDucted: boolean) => ({
  house: { ventilationKind: 'balanced', ventilatorDucted } as HouseFile['house'],
  systems: [system('s1'), system('s2'), system('s3', false)],
  rooms: [],
  appliances: [],
});
const house = { subjectId: 'house', subjectKind: 'house' } as const;

describe('testPlaces', () => {
  it('keeps to the item’s own part when the test is done on that kind', () => {
    const places = testPlaces(
      { tests: ['supply-static'], subjectId: 's2', subjectKind: 'system' },
      file(true),
    );
    expect(places.map(({ subject }) => subject.id)).toEqual(['s2']);
  });

  it('asks for every ducted system when the item judges the house as a whole', () => {
    const places = testPlaces({ ...house, tests: ['duct-leakage-total'] }, file(true));
    expect(places.map(({ subject }) => subject.id)).toEqual(['s1', 's2']);
  });

  it('asks for the ventilator’s ducts only where it has some', () => {
    expect(testPlaces({ ...house, tests: ['ventilator-duct-leakage'] }, file(true))).toHaveLength(1);
    expect(testPlaces({ ...house, tests: ['ventilator-duct-leakage'] }, file(false))).toEqual([]);
  });

  it('asks for nothing where the house has no such part', () => {
    expect(testPlaces({ ...house, tests: ['spillage'] }, file(true))).toEqual([]);
  });
});
