import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { opened, refusedWith } from '../testing/opened.ts';
import { propagate } from '../uncertainty/propagate.ts';
import { convert } from '../units/convert.ts';
import { infiltrationByStories, infiltrationInchPound, infiltrationSi, storyFactor } from './infiltration.ts';
import { infiltrationByNormalizedLeakage, normalizedLeakage } from './normalized-leakage.ts';

const house = { leakageAt50: 1200, weatherFactor: 0.6, height: 17 };
const area = { leakageArea: 65.9481, floorArea: 2400, height: 17, weatherFactor: 0.6 };

describe('infiltration by height', () => {
  // Equation 4-3 as in a public code's docstring; 50.1176 computed independently.
  it('is 50.1176 cfm for 1,200 cfm at 50 Pa, 17 ft and a weather factor of 0.6', () => {
    const found = opened(infiltrationInchPound(house));
    expect(found.value).toBeCloseTo(50.1176, 4);
    expect(found).toMatchObject({ unit: 'cfm', form: 'inch-pound', equation: 'Equation 4-3 (inch-pound)' });
    expect(found.steps[0]?.working).toBe('0.052 × 1200 × 0.6 × (17 / 8.2)^0.4');
  });

  it('has an SI form with 2.5 m, which lies within 0.02 % here', () => {
    const found = opened(
      infiltrationSi({
        leakageAt50: convert(1200, 'cfm', 'L/s'),
        weatherFactor: 0.6,
        height: convert(17, 'ft', 'm'),
      }),
    );
    expect(found).toMatchObject({ unit: 'L/s', form: 'si', equation: 'Equation 4-3 (si)' });
    expect(convert(found.value, 'L/s', 'cfm') / 50.1176).toBeCloseTo(1, 3);
    expect(found.steps[0]?.working).toContain('/ 2.5)^0.4');
  });

  it('propagates the uncertainties as differences do', () => {
    const uncertainties = { leakageAt50: 60, weatherFactor: 0.05, height: 0.5 };
    const found = opened(infiltrationInchPound({ ...house, uncertainties }));
    const by = opened(
      propagate(
        ([q = 0, w = 0, h = 0]) => 0.052 * q * w * (h / 8.2) ** 0.4,
        [
          { value: 1200, u: 60 },
          { value: 0.6, u: 0.05 },
          { value: 17, u: 0.5 },
        ],
      ),
    );
    expect(found.standardUncertainty).toBeCloseTo(by.standardUncertainty, 6);
    expect(opened(infiltrationInchPound(house)).standardUncertainty).toBeNull();
    const exact = opened(infiltrationInchPound({ ...house, uncertainties: { leakageAt50: 60 } }));
    expect(exact.standardUncertainty).toBeCloseTo((50.1176 * 60) / 1200, 3);
  });

  it('refuses what cannot be', () => {
    expect(refusedWith(infiltrationInchPound({ ...house, leakageAt50: -1 }))).toBe(
      'below-zero at leakageAt50',
    );
    expect(refusedWith(infiltrationSi({ ...house, height: 0 }))).toBe('not-above-zero at height');
    expect(refusedWith(infiltrationSi({ ...house, weatherFactor: 0 }))).toBe(
      'not-above-zero at weatherFactor',
    );
    expect(refusedWith(infiltrationSi({ ...house, uncertainties: { height: -1 } }))).toBe(
      'bad-uncertainty at uncertainties.height',
    );
    expect(opened(infiltrationInchPound({ ...house, leakageAt50: 0 })).value).toBe(0);
  });
});

describe('infiltration by storeys', () => {
  // Published list (seen), and storeys^0.4 rounded to two decimals (computed independently).
  it.each([
    [1, 1],
    [1.5, 1.18],
    [2, 1.32],
    [2.5, 1.44],
    [3, 1.55],
  ])('has for %s storeys the factor %s', (stories, factor) => {
    expect(opened(storyFactor(stories))).toBe(factor);
    expect(stories ** 0.4).toBeCloseTo(factor, 2);
    const found = opened(infiltrationByStories({ leakageAt50: 1000, weatherFactor: 0.5, stories }));
    expect(found.value).toBeCloseTo(26 * factor, 9);
    expect(found.equation).toContain('story-factor form');
    expect(found.steps[0]?.working).toBe(`0.052 × 1000 × 0.5 × ${factor}`);
  });

  it('carries the uncertainty of the leakage', () => {
    const stated = { leakageAt50: 1000, weatherFactor: 0.5, stories: 1, uncertainties: { leakageAt50: 50 } };
    expect(opened(infiltrationByStories(stated)).standardUncertainty).toBeCloseTo(1.3, 9);
  });

  it('has no factor that is not listed', () => {
    for (const stories of [0, 1.25, 4, NaN])
      expect(refusedWith(storyFactor(stories))).toBe('not-listed at stories');
    expect(storyFactor(4)).toMatchObject({
      problem: { message: expect.stringContaining('1, 1.5, 2, 2.5, 3') },
    });
    expect(refusedWith(infiltrationByStories({ leakageAt50: 1, weatherFactor: 1, stories: 4 }))).toBe(
      'not-listed at stories',
    );
    expect(refusedWith(infiltrationByStories({ leakageAt50: 1, weatherFactor: -1, stories: 1 }))).toBe(
      'not-above-zero at weatherFactor',
    );
  });
});

describe('infiltration by normalized leakage', () => {
  // From memory (62.2-2013 and 2016, 4.1.2); 0.25544 and 50.387 computed independently.
  it('is 50.387 cfm where the other route gives 50.118', () => {
    expect(opened(normalizedLeakage(area)).value).toBeCloseTo(0.25544, 5);
    const found = opened(infiltrationByNormalizedLeakage(area));
    expect(found.value).toBeCloseTo(50.387, 3);
    expect(found).toMatchObject({ unit: 'cfm', form: 'inch-pound' });
    expect(found.steps.map(({ working }) => working)).toEqual([
      '1000 × (65.948 / 144 / 2400) × (17 / 8.2)^0.4',
      '0.25544 × 0.6 × 2400 / 7.3',
    ]);
    expect(found.equation).toContain('from memory');
  });

  it('does not depend on the floor area, which cancels', () => {
    fc.assert(
      fc.property(fc.double({ min: 500, max: 9000, noNaN: true }), (floorArea) => {
        expect(opened(infiltrationByNormalizedLeakage({ ...area, floorArea })).value).toBeCloseTo(50.3874, 3);
      }),
    );
  });

  it('propagates the uncertainties as differences do', () => {
    const uncertainties = { leakageArea: 3, floorArea: 40, height: 0.5, weatherFactor: 0.05 };
    const inputs = [
      { value: 65.9481, u: 3 },
      { value: 2400, u: 40 },
      { value: 17, u: 0.5 },
      { value: 0.6, u: 0.05 },
    ];
    const leakage = ([l = 0, a = 1, h = 0]: readonly number[]) => (1000 / 144) * (l / a) * (h / 8.2) ** 0.4;
    expect(opened(normalizedLeakage({ ...area, uncertainties })).standardUncertainty).toBeCloseTo(
      opened(propagate(leakage, inputs.slice(0, 3))).standardUncertainty,
      6,
    );
    const flow = (values: readonly number[]) => (leakage(values) * (values[3] ?? 0) * (values[1] ?? 0)) / 7.3;
    const found = opened(infiltrationByNormalizedLeakage({ ...area, uncertainties })).standardUncertainty;
    expect(found).toBeCloseTo(opened(propagate(flow, inputs)).standardUncertainty, 4);
    expect(opened(infiltrationByNormalizedLeakage(area)).standardUncertainty).toBeNull();
  });

  it('refuses what cannot be', () => {
    expect(refusedWith(normalizedLeakage({ ...area, leakageArea: -1 }))).toBe('below-zero at leakageArea');
    expect(refusedWith(normalizedLeakage({ ...area, floorArea: 0 }))).toBe('not-above-zero at floorArea');
    expect(refusedWith(infiltrationByNormalizedLeakage({ ...area, height: 0 }))).toBe(
      'not-above-zero at height',
    );
    expect(refusedWith(infiltrationByNormalizedLeakage({ ...area, weatherFactor: 0 }))).toBe(
      'not-above-zero at weatherFactor',
    );
    expect(refusedWith(normalizedLeakage({ ...area, uncertainties: { height: NaN } }))).toBe(
      'bad-uncertainty at uncertainties.height',
    );
  });
});
