import { describe, expect, it } from 'vitest';
import { coverageFactor, statedUncertainty, studentFactor } from './coverage.ts';
import { fromHalfWidth } from './distributions.ts';

describe('studentFactor', () => {
  // Two-sided 95 %: computed independently.
  it.each([
    [1, 12.706205],
    [2, 4.302653],
    [3, 3.182446],
    [4, 2.776445],
    [5, 2.570582],
    [6, 2.446912],
    [7, 2.364624],
    [8, 2.306004],
    [9, 2.262157],
    [10, 2.228139],
    [12, 2.178813],
    [15, 2.13145],
    [20, 2.085963],
    [30, 2.042272],
    [60, 2.000298],
    [120, 1.97993],
    [Infinity, 1.959964],
  ])('for %s degrees of freedom is %s', (df, factor) => {
    expect(studentFactor(df)).toBeCloseTo(factor, 6);
    expect(studentFactor(df)).toBe(studentFactor(df));
  });

  // One-sided 95 % is two-sided 90 %: computed independently.
  it.each([
    [1, 6.313752],
    [4, 2.131847],
    [8, 1.859548],
    [10, 1.812461],
    [30, 1.697261],
  ])('one-sided for %s is %s', (df, factor) => {
    expect(studentFactor(df, 0.9)).toBeCloseTo(factor, 6);
  });

  // GUM H.1, 99 % for 16 degrees of freedom: from memory.
  it('is 2.92 at 99 % for 16', () => expect(studentFactor(16, 0.99)).toBeCloseTo(2.92, 2));

  it('falls with the degrees of freedom, across the ones kept', () => {
    for (let df = 1; df < 300; df++) expect(studentFactor(df)).toBeGreaterThan(studentFactor(df + 1));
    expect(studentFactor(255.5)).toBeLessThan(studentFactor(255));
  });

  it('is no number where there is none', () => {
    for (const df of [0, -1, NaN]) expect(studentFactor(df)).toBeNaN();
    for (const level of [0, 1, NaN]) expect(studentFactor(5, level)).toBeNaN();
  });
});

describe('coverageFactor', () => {
  it('is 2 unless degrees of freedom say otherwise, and cuts them', () => {
    expect(coverageFactor()).toBe(2);
    expect(coverageFactor(16.7)).toBe(studentFactor(16));
    expect(coverageFactor(0.5)).toBe(studentFactor(0.5));
    expect(coverageFactor(60)).toBeCloseTo(2.000298, 6);
    for (const many of [61, 1e5, 1e30]) expect(coverageFactor(many)).toBe(2);
    expect(coverageFactor(0)).toBeNaN();
    expect(studentFactor(1e30)).toBeCloseTo(1.959964, 6);
  });

  it('makes the expanded uncertainty', () => {
    expect(statedUncertainty(1.5)).toEqual({
      standardUncertainty: 1.5,
      expandedUncertainty: 3,
      coverageFactor: 2,
    });
    expect(statedUncertainty(1, 4).expandedUncertainty).toBeCloseTo(2.776445, 6);
    expect(statedUncertainty(0).expandedUncertainty).toBe(0);
    for (const [u, df] of [[null], [-1], [NaN], [Infinity], [1, 0]] as [number | null, number?][]) {
      expect(statedUncertainty(u, df)).toEqual({
        standardUncertainty: null,
        expandedUncertainty: null,
        coverageFactor: null,
      });
    }
  });
});

it('takes a half-width as a standard uncertainty by its shape', () => {
  expect(fromHalfWidth(3, 'rectangular')).toBeCloseTo(Math.sqrt(3), 12);
  expect(fromHalfWidth(6, 'triangular')).toBeCloseTo(Math.sqrt(6), 12);
  expect(fromHalfWidth(2, 'arcsine')).toBeCloseTo(Math.SQRT2, 12);
  expect(fromHalfWidth(0, 'arcsine')).toBe(0);
  for (const bad of [-1, NaN, Infinity]) expect(fromHalfWidth(bad, 'arcsine')).toBeNaN();
});
