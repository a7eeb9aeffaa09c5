import { describe, expect, it } from 'vitest';
import { testPlaces, type Subject } from './test-places.ts';

const subjects: Subject[] = [
  { id: 'house', kind: 'house', label: 'House' },
  { id: 's1', kind: 'system', label: 'System 1' },
  { id: 's2', kind: 'system', label: 'System 2' },
];

describe('testPlaces', () => {
  it('keeps to the item’s own subject when the test is done on that kind', () => {
    const places = testPlaces({ tests: ['supply-static'], subjectId: 's2', subjectKind: 'system' }, subjects);
    expect(places).toEqual([{ test: 'supply-static', subject: subjects[2] }]);
  });

  it('asks for every system when the item judges the house as a whole', () => {
    const places = testPlaces(
      { tests: ['duct-leakage-total'], subjectId: 'house', subjectKind: 'house' },
      subjects,
    );
    expect(places.map(({ subject }) => subject.id)).toEqual(['s1', 's2']);
  });

  it('asks for nothing where the house has no such part', () => {
    expect(testPlaces({ tests: ['spillage'], subjectId: 'house', subjectKind: 'house' }, subjects)).toEqual(
      [],
    );
  });
});
