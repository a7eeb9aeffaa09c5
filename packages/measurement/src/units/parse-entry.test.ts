import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseEntry } from './parse-entry.ts';

describe('parseEntry', () => {
  it.each([
    ['0.085', 0.085],
    ['0,085', 0.085],
    [' 1300 ', 1300],
    ['-2.5', -2.5],
    ['−2,5', -2.5],
    ['+3', 3],
    ['.5', 0.5],
    [',5', 0.5],
    ['7.', 7],
    ['1.300', 1.3],
    ['12,34', 12.34],
    ['0012', 12],
    ['1234,567', 1234.567],
  ])('reads "%s" as %s', (text, value) => {
    expect(parseEntry('pressureDifference', text, 'us')).toEqual({ value, problem: null });
  });

  it.each([
    ['', 'Nothing is entered'],
    ['   ', 'Nothing is entered'],
    ['1e9', 'power of ten'],
    ['-1.5E+3', 'power of ten'],
    ['1,300', 'could be 1300 or a decimal'],
    ['-1,300,000', 'could be -1300000 or a decimal'],
    ['25 Pa', 'is not a number'],
    ['abc', 'is not a number'],
    ['1.2.3', 'is not a number'],
    ['.', 'is not a number'],
    ['--1', 'is not a number'],
    ['Infinity', 'is not a number'],
    ['0x10', 'is not a number'],
    ['e5', 'is not a number'],
    ['1e9x', 'is not a number'],
    ['x1e9', 'is not a number'],
    ['1,300x', 'is not a number'],
    ['x1,300', 'is not a number'],
    ['1234567890123456', 'longer than any reading'],
  ])('refuses "%s" in words', (text, words) => {
    const { value, problem } = parseEntry('pressureDifference', text, 'us');
    expect(value).toBeNull();
    expect(problem).toContain(words);
  });

  it('takes fifteen characters and not sixteen', () => {
    expect(parseEntry('volume', '123456789012345', 'us').value).toBe(123456789012345);
    expect(parseEntry('volume', '0123456789012345', 'us').value).toBeNull();
  });

  it('stores what was entered in the other system', () => {
    expect(parseEntry('airflow', '50', 'si').value).toBeCloseTo(105.944, 3);
    expect(parseEntry('staticPressure', '24,908891', 'si').value).toBe(0.1);
  });

  it('gives back every decimal that a display can show, with a point or a comma', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -9999999, max: 9999999 }),
        fc.constantFrom('.', ','),
        (hundredths, sign) => {
          const text = (hundredths / 100).toFixed(2).replace('.', sign);
          expect(parseEntry('staticPressure', text, 'us').value).toBe(hundredths / 100);
        },
      ),
    );
  });

  it('never throws and never gives a number that is none', () => {
    fc.assert(
      fc.property(fc.string(), (text) => {
        const { value, problem } = parseEntry('airflow', text, 'si');
        expect((value !== null && Number.isFinite(value)) !== (problem !== null)).toBe(true);
      }),
    );
  });
});
