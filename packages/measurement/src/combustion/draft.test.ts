import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { opened, refusedWith } from '../testing/opened.ts';
import { combustionAirVolume } from './combustion-air.ts';
import { drawsEnough, leastDraft } from './draft.ts';

describe('least draft', () => {
  // −2.50, −2.00, −1.50, −0.50: computed independently; the line itself from memory.
  it.each([
    [-20, -2.5],
    [10, -2.5],
    [30, -2],
    [50, -1.5],
    [90, -0.5],
    [110, -0.5],
  ])('at %s °F is %s Pa', (outdoors, pascal) => {
    const found = opened(leastDraft(outdoors));
    expect(found.value).toBeCloseTo(pascal, 9);
    expect(found).toMatchObject({ unit: 'Pa', source: { confirmed: false } });
    expect(found.remarks[0]).toContain('confirms');
  });

  it('carries the thermometer’s uncertainty on the slope only', () => {
    expect(opened(leastDraft(50, 2)).standardUncertainty).toBeCloseTo(0.05, 9);
    expect(opened(leastDraft(0, 2)).standardUncertainty).toBe(0);
    expect(opened(leastDraft(50)).standardUncertainty).toBeNull();
    expect(opened(leastDraft(50)).steps[0]?.working).toBe('50 / 40 − 2.75');
  });

  it('weakens as it gets warmer outdoors, and stays between −2.5 and −0.5', () => {
    const outdoors = fc.double({ min: -60, max: 130, noNaN: true });
    fc.assert(
      fc.property(outdoors, outdoors, (a, b) => {
        const [cold, warm] = [
          opened(leastDraft(Math.min(a, b))).value,
          opened(leastDraft(Math.max(a, b))).value,
        ];
        expect(cold).toBeLessThanOrEqual(warm);
        expect(cold).toBeGreaterThanOrEqual(-2.5);
        expect(warm).toBeLessThanOrEqual(-0.5);
      }),
    );
  });

  it('judges nobody before the company confirmed it', () => {
    expect(refusedWith(drawsEnough(-3, 30, false))).toBe('limits-not-set at confirmedByCompany');
    expect(opened(drawsEnough(-2, 30, true))).toMatchObject({ enough: true, least: { value: -2 } });
    expect(opened(drawsEnough(-1.9, 30, true)).enough).toBe(false);
    expect(opened(drawsEnough(1, 30, true)).enough).toBe(false);
    expect(refusedWith(drawsEnough(NaN, 30, true))).toBe('not-a-number at draft');
    expect(refusedWith(drawsEnough(-2, NaN, true))).toBe('not-a-number at outdoorTemperature');
    expect(refusedWith(leastDraft(30, -1))).toBe('bad-uncertainty at uncertainties.outdoorTemperature');
  });
});

describe('volume for combustion air', () => {
  // 50 ft³ per 1,000 Btu/h: https://sws.nrel.gov/specification/10778/history (seen); by hand: 120,000 → 6,000.
  it('is 50 ft³ for each 1,000 Btu/h', () => {
    const found = opened(combustionAirVolume([80_000, 40_000], 0.5, 1000));
    expect(found).toMatchObject({ value: 6000, unit: 'ft3', standardUncertainty: 50, remarks: [] });
    expect(found.steps[0]?.working).toBe('(80000 + 40000) / 1000 × 50');
    expect(found.source.confirmed).toBe(true);
    expect(opened(combustionAirVolume([]))).toMatchObject({ value: 0, standardUncertainty: null });
  });

  it('says that it does not hold for a tight space', () => {
    expect(opened(combustionAirVolume([1000], 0.39)).remarks).toHaveLength(1);
    expect(opened(combustionAirVolume([1000], 0.4)).remarks).toEqual([]);
    expect(refusedWith(combustionAirVolume([-1]))).toBe('below-zero at inputs.0');
    expect(refusedWith(combustionAirVolume([1], -1))).toBe('below-zero at airChanges');
    expect(refusedWith(combustionAirVolume([1], null, -1))).toBe('bad-uncertainty at uncertainties.inputs');
  });
});
