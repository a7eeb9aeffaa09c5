import { describe, expect, it } from 'vitest';
import type { Photo, Reading, WholeFile } from '@countercheck/contracts';
import { itemsOf, otherPhotos, reportedOf } from './file-parts.ts';

const verdict = (item: string, status: string, readingIds: string[] = [], safety = false) => ({
  item,
  subjectId: 'house',
  status,
  safety,
  trace: { readingIds, inputs: [] },
});
const reading = (id: string, supersedesId: string | null = null) => ({ id, supersedesId }) as Reading;
const photo = (item: string | null) => ({ id: item ?? 'none', item, subjectId: 'house' }) as Photo;
const file = (more: object) =>
  ({
    verdicts: [],
    readings: [],
    photos: [],
    measured: [],
    differences: [],
    ...more,
  }) as unknown as WholeFile;

describe('itemsOf', () => {
  it('puts first what came out differently, then what failed, safety before the rest', () => {
    const items = itemsOf(
      file({
        verdicts: [
          verdict('a', 'pass'),
          verdict('b', 'fail'),
          verdict('c', 'fail', [], true),
          verdict('d', 'pass'),
        ],
        differences: [{ item: 'd', subjectId: 'house', stored: 'fail', again: 'pass' }],
      }),
    );
    expect(items.map((each) => each.verdict.item)).toEqual(['d', 'c', 'b', 'a']);
  });

  it('brings the readings that entered a verdict, with what they replaced', () => {
    const [item] = itemsOf(
      file({
        verdicts: [verdict('a', 'pass', ['3', 'gone'])],
        readings: [reading('1'), reading('2', '1'), reading('3', '2'), reading('4')],
        measured: [{ readingId: '3', counts: true }],
      }),
    );
    expect(item?.readings).toHaveLength(1);
    expect(item?.readings[0]?.replaced.map(({ id }) => id)).toEqual(['2', '1']);
    expect(item?.readings[0]?.measured?.counts).toBe(true);
  });
});

describe('otherPhotos', () => {
  it('are those without an item, or of one that is not in the file', () => {
    const given = file({ verdicts: [verdict('a', 'pass')], photos: [photo('a'), photo(null), photo('z')] });
    expect(otherPhotos(given).map(({ id }) => id)).toEqual(['none', 'z']);
  });
});

describe('reportedOf', () => {
  it('takes the installer’s figures only', () => {
    const inputs = [
      { name: 'r', label: 'supply static', value: 0.08, unit: 'inH2O', from: 'reported' },
      { name: 'h', label: 'area', value: 2000, unit: 'ft2', from: 'house' },
    ];
    expect(reportedOf({ trace: { inputs } } as never)).toEqual([
      { label: 'supply static', value: 0.08, unit: 'inH2O' },
    ]);
  });
});
