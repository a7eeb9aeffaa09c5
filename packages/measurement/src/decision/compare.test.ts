import { describe, expect, it } from 'vitest';
import { randomStream } from '../uncertainty/random.ts';
import { compareReadings, compareSets, type ReadingPair } from './compare.ts';

const pair = (first: number, second: number, u = 1): ReadingPair => ({
  first: { value: first, standardUncertainty: u },
  second: { value: second, standardUncertainty: u },
});

function setOf(pairs: ReadingPair[]) {
  const found = compareSets(pairs);
  if (!found.ok) throw new Error(found.problem.message);
  return found.value;
}

describe('compareReadings', () => {
  it('weighs the difference by both uncertainties', () => {
    const found = compareReadings({
      first: { value: 70, standardUncertainty: 3 },
      second: { value: 60, standardUncertainty: 4 },
    });
    expect(found).toEqual({
      ok: true,
      value: {
        difference: -10,
        standardUncertainty: 5,
        expandedUncertainty: 10,
        normalisedError: -1,
        verdict: 'agrees',
      },
    });
    expect(compareReadings(pair(0, 2.83))).toMatchObject({ value: { verdict: 'differs' } });
    expect(compareReadings(pair(0, -2.82))).toMatchObject({ value: { verdict: 'agrees' } });
  });

  it.each([
    [pair(NaN, 1), 'not-a-number'],
    [pair(1, Infinity), 'not-a-number'],
    [pair(1, 1, 0), 'bad-uncertainty'],
    [pair(1, 1, NaN), 'bad-uncertainty'],
  ])('refuses %o', (given, code) => {
    expect(compareReadings(given)).toMatchObject({ problem: { code } });
    expect(compareSets([pair(1, 1), given])).toMatchObject({
      problem: { code, path: expect.stringMatching(/^pairs\.1\./) },
    });
  });
});

describe('compareSets', () => {
  // χ² of 10 degrees of freedom lies below 2.558 in 1 of 100 and above 18.307 in 5 of 100: printed tables, from memory.
  const tenPairs = (chiSquare: number) =>
    Array.from({ length: 10 }, () => pair(100, 100 + Math.sqrt((chiSquare / 10) * 2)));

  it.each([
    [2.55, 'agrees-suspiciously-well', 'agree suspiciously well'],
    [2.57, 'agrees', 'The 10 pairs agree within'],
    [10, 'agrees', 'agree within'],
    [18.3, 'agrees', 'agree within'],
    [18.32, 'differs', 'differ more than'],
  ])('a sum of %s over ten pairs %s', (chiSquare, verdict, words) => {
    const found = setOf(tenPairs(chiSquare));
    expect(found).toMatchObject({ verdict, words: expect.stringContaining(words) });
    expect(found.chiSquare).toBeCloseTo(chiSquare, 9);
    expect(found.chanceAsSmall + found.chanceAsLarge).toBe(1);
    expect(found.pairs).toHaveLength(10);
  });

  it('suspects figures that are copied, from five pairs on', () => {
    const copied = [70, 81, 64, 90, 77].map((value) => pair(value, value));
    expect(setOf(copied)).toMatchObject({
      verdict: 'agrees-suspiciously-well',
      words: expect.stringContaining('less than 0.01 %'),
    });
    expect(setOf(copied.slice(1)).verdict).toBe('agrees');
    expect(setOf([pair(1, 9)])).toMatchObject({
      verdict: 'differs',
      words: expect.stringContaining('1 pair '),
    });
    expect(compareSets([])).toMatchObject({ problem: { code: 'no-pairs' } });
  });

  it('suspects 1 and calls different 5 of 100 honest sets', () => {
    const stream = randomStream(3);
    const found = { agrees: 0, differs: 0, 'agrees-suspiciously-well': 0 };
    for (let round = 0; round < 4000; round++) {
      const pairs = Array.from({ length: 12 }, () => pair(50 + stream.normal(), 50 + stream.normal()));
      found[setOf(pairs).verdict]++;
    }
    expect(Math.abs(found.differs / 4000 - 0.05)).toBeLessThan(0.012);
    expect(Math.abs(found['agrees-suspiciously-well'] / 4000 - 0.01)).toBeLessThan(0.006);
  });
});
