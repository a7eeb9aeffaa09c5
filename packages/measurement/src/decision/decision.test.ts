import fc from 'fast-check';
import normalQuantile from '@stdlib/stats-base-dists-normal-quantile';
import { describe, expect, it } from 'vitest';
import { chanceBeyond, type HeldAgainst } from './chance.ts';
import { guardBandLimits, guardBandRisk, guardedShare } from './guard-band.ts';
import { globalRisk, type RiskGiven } from './risk.ts';

function valueOf<T>(found: { ok: true; value: T } | { ok: false; problem: { message: string } }): T {
  if (!found.ok) throw new Error(found.problem.message);
  return found.value;
}

const held = (part: Partial<HeldAgainst>): HeldAgainst => ({
  value: 0,
  standardUncertainty: 1,
  low: null,
  high: null,
  ...part,
});

describe('chanceBeyond', () => {
  // JCGM 106 example of a breakdown voltage (from memory), figure computed independently.
  it('gives the conformance probability of the breakdown voltage', () => {
    const found = valueOf(chanceBeyond(held({ value: -5.47, standardUncertainty: 0.05, high: -5.4 })));
    expect(found.within).toBeCloseTo(0.919243, 6);
    expect(found).toMatchObject({ below: 0, beyond: found.above });
  });

  // Air changes against 3.0: computed independently.
  it.each([
    [2.85, 0.1, 0.933193],
    [2.95, 0.1, 0.691462],
    [3.05, 0.1, 0.308538],
    [2.7, 0.2, 0.933193],
  ])('%s with u %s lies at or below 3.0 with %s', (value, standardUncertainty, within) => {
    expect(valueOf(chanceBeyond(held({ value, standardUncertainty, high: 3 }))).within).toBeCloseTo(
      within,
      6,
    );
  });

  // Capability of two processes, limits 9 and 11: seen in the tests of an open uncertainty calculator.
  it.each([
    [10, 0.01242],
    [10.5, 0.10574],
  ])('a process about %s leaves 9 to 11 with %s', (value, risk) => {
    const found = valueOf(chanceBeyond({ value, standardUncertainty: 0.4, low: 9, high: 11 }));
    expect(found.beyond).toBeCloseTo(risk, 5);
    expect(found.below + found.above + found.within).toBeCloseTo(1, 15);
  });

  it('is certain without uncertainty and takes a value on the limit as conforming', () => {
    const sure = (value: number) => chanceBeyond({ value, standardUncertainty: 0, low: 1, high: 2 });
    expect(valueOf(sure(2))).toEqual({ below: 0, above: 0, beyond: 0, within: 1 });
    expect(valueOf(sure(1))).toEqual({ below: 0, above: 0, beyond: 0, within: 1 });
    expect(valueOf(sure(2.1))).toEqual({ below: 0, above: 1, beyond: 1, within: 0 });
    expect(valueOf(sure(0.9))).toEqual({ below: 1, above: 0, beyond: 1, within: 0 });
    expect(valueOf(chanceBeyond(held({}))).within).toBe(1);
  });

  it('grows with the value above an upper limit, and mirrors', () => {
    const number = fc.double({ min: -5, max: 5, noNaN: true });
    fc.assert(
      fc.property(number, number, (a, b) => {
        const [small, large] = a < b ? [a, b] : [b, a];
        const above = (value: number) => valueOf(chanceBeyond(held({ value, high: 0.3 }))).above;
        expect(above(small)).toBeLessThanOrEqual(above(large));
        expect(valueOf(chanceBeyond(held({ value: -a, low: -0.3 }))).below).toBe(above(a));
      }),
    );
  });

  it.each([
    [{ value: NaN }, 'not-a-number'],
    [{ standardUncertainty: Infinity }, 'not-a-number'],
    [{ standardUncertainty: -1 }, 'negative-uncertainty'],
    [{ low: NaN }, 'not-a-number'],
    [{ high: NaN }, 'not-a-number'],
    [{ low: 2, high: 1 }, 'limits-reversed'],
  ])('refuses %o', (part, code) => {
    expect(chanceBeyond(held(part))).toMatchObject({ ok: false, problem: { code } });
  });
});

describe('guardBandLimits', () => {
  it('moves the limits inwards by factor × U', () => {
    const given = { low: 1499.8, high: 1500.2, expandedUncertainty: 0.08, factor: 0.25 };
    expect(valueOf(guardBandLimits(given))).toEqual({
      low: expect.closeTo(1499.82, 9),
      high: expect.closeTo(1500.18, 9),
      width: 0.02,
    });
    expect(valueOf(guardBandLimits({ ...given, low: null, factor: 0 }))).toEqual({
      low: null,
      high: 1500.2,
      width: 0,
    });
    expect(valueOf(guardBandLimits({ ...given, high: null, factor: -1 })).low).toBeCloseTo(1499.72, 9);
  });

  it('refuses a band that leaves nothing, and no numbers', () => {
    const given = { low: 1, high: 2, expandedUncertainty: 1, factor: 0.51 };
    expect(guardBandLimits(given)).toMatchObject({ problem: { code: 'nothing-acceptable' } });
    expect(guardBandLimits({ ...given, factor: 0.5 })).toMatchObject({ value: { low: 1.5, high: 1.5 } });
    expect(guardBandLimits({ ...given, factor: NaN })).toMatchObject({ problem: { code: 'not-a-number' } });
    expect(guardBandLimits({ ...given, expandedUncertainty: NaN })).toMatchObject({
      problem: { code: 'not-a-number' },
    });
    expect(guardBandLimits({ ...given, expandedUncertainty: -1 })).toMatchObject({
      problem: { code: 'negative-uncertainty' },
    });
    expect(guardBandLimits({ ...given, low: 3 })).toMatchObject({ problem: { code: 'limits-reversed' } });
  });

  // Long digits computed independently.
  it.each([
    [0, 0.5],
    [0.5, 0.158655],
    [0.83, 0.048457],
    [1, 0.02275],
    [1.5, 0.00135],
    [2, 3.167e-5],
  ])('a guard band of %s U leaves a risk of %s at the edge', (factor, risk) => {
    expect(Math.abs(valueOf(guardBandRisk(factor)) - risk)).toBeLessThan(6e-7);
  });

  // Bounds of a laboratory's page after ILAC G8 (seen).
  it.each([
    [0.83, 0.05],
    [1, 0.025],
    [1.5, 0.0016],
    [3, 1e-6],
  ])('a guard band of %s U keeps the risk below %s', (factor, bound) => {
    expect(valueOf(guardBandRisk(factor))).toBeLessThan(bound);
  });

  it('refuses a factor that is no number and a coverage factor of zero', () => {
    expect(guardBandRisk(NaN)).toMatchObject({ problem: { code: 'not-a-number' } });
    expect(guardBandRisk(1, 0)).toMatchObject({ problem: { code: 'bad-coverage-factor' } });
    expect(guardBandRisk(1, Infinity)).toMatchObject({ problem: { code: 'bad-coverage-factor' } });
  });

  // Formulas seen in the documentation of an open uncertainty calculator; figures by their arithmetic.
  it('knows the shares of the tolerance by the uncertainty ratio', () => {
    expect(valueOf(guardedShare('root-sum-square', 4))).toBeCloseTo(0.9682458, 7);
    expect(valueOf(guardedShare('full-uncertainty', 4))).toBe(0.75);
    expect(valueOf(guardedShare('eased', 4))).toBe(1);
    expect(valueOf(guardedShare('eased', 2))).toBe(0.75);
    expect(valueOf(guardedShare('two-percent', 2))).toBeCloseTo(0.85918, 5);
    expect(valueOf(guardedShare('two-percent', 10))).toBe(1);
    expect(guardedShare('eased', 1)).toMatchObject({ problem: { code: 'bad-ratio' } });
    expect(guardedShare('eased', Infinity)).toMatchObject({ problem: { code: 'bad-ratio' } });
  });
});

describe('globalRisk', () => {
  const resistor: RiskGiven = {
    prior: { mean: 1500, standardDeviation: 0.12 },
    standardUncertainty: 0.04,
    low: 1499.8,
    high: 1500.2,
  };

  // JCGM 106 resistor: inputs seen in public text, figures computed independently.
  it('meets the resistor with and without a guard band', () => {
    const simple = valueOf(globalRisk(resistor));
    expect(simple.conforming).toBeCloseTo(0.904419295, 9);
    expect(simple.consumer).toBeCloseTo(0.018942207, 8);
    expect(simple.producer).toBeCloseTo(0.0372078, 8);
    const guarded = valueOf(globalRisk({ ...resistor, acceptLow: 1499.82, acceptHigh: 1500.18 }));
    expect(guarded.consumer).toBeCloseTo(0.009878292, 8);
    expect(guarded.producer).toBeCloseTo(0.06902651, 8);
    expect(guarded.acceptedWrongly).toBeCloseTo(guarded.consumer / guarded.accepted, 15);
  });

  // Share in tolerance, false acceptance in %, the same of the accepted, where the measurement is four times
  // closer than the spread of the things: seen in github:sandialabs/suncal, test/test_risk.py, there after a
  // draft practice and good to 1e-6 %; 0.87101018814 at 0.95 computed independently.
  it.each([
    [0.6, 4.8386032, 8.2600819],
    [0.7, 3.922341, 5.7232204],
    [0.8, 2.8558303, 3.6322714],
    [0.9, 1.5999531, 1.7988043],
    [0.95, 0.8710093, 0.9238966],
    [0.99, 0.1999168, 0.2024386],
  ])('meets the table at %s in tolerance', (share, falseAccept, conditional) => {
    const standardDeviation = 1 / normalQuantile((1 + share) / 2, 0, 1);
    const found = valueOf(
      globalRisk({
        prior: { mean: 0, standardDeviation },
        standardUncertainty: standardDeviation / 4,
        low: -1,
        high: 1,
      }),
    );
    expect(found.consumer * 100).toBeCloseTo(falseAccept, 5);
    expect(found.acceptedWrongly * 100).toBeCloseTo(conditional, 5);
    expect(found.conforming).toBeCloseTo(share, 12);
  });

  // The classic figures, seen in the same tests: limits at so many deviations, ratio, guard band.
  it.each([
    [2, 4, 1, 0.008, 0.015],
    [2, 2, 0.91, 0.008, 0.066],
  ])('meets the classic case at %s deviations, ratio %s, share %s', (deviations, ratio, share, pfa, pfr) => {
    const found = valueOf(
      globalRisk({
        prior: { mean: 0, standardDeviation: 1 / deviations },
        standardUncertainty: 1 / ratio / 2,
        low: -1,
        high: 1,
        acceptLow: -share,
        acceptHigh: share,
      }),
    );
    expect(found.consumer).toBeCloseTo(pfa, 3);
    expect(found.producer).toBeCloseTo(pfr, 3);
  });

  it('adds up, also with one limit only and with a very small uncertainty', () => {
    for (const part of [{}, { low: null }, { high: null }, { standardUncertainty: 1e-7 }]) {
      const found = valueOf(globalRisk({ ...resistor, ...part }));
      expect(found.accepted - found.consumer + found.producer).toBeCloseTo(found.conforming, 9);
    }
    const small = valueOf(globalRisk({ ...resistor, standardUncertainty: 1e-7 }));
    expect(small.consumer).toBeLessThan(1e-6);
  });

  it.each([
    [{ prior: { mean: NaN, standardDeviation: 1 } }, 'not-a-number'],
    [{ prior: { mean: 0, standardDeviation: 0 } }, 'bad-spread'],
    [{ standardUncertainty: 0 }, 'bad-spread'],
    [{ low: 1501 }, 'limits-reversed'],
    [{ acceptLow: 2, acceptHigh: 1 }, 'limits-reversed'],
  ])('refuses %o', (part, code) => {
    expect(globalRisk({ ...resistor, ...part })).toMatchObject({ problem: { code } });
  });

  it('accepts nothing far from everything', () => {
    const far = valueOf(globalRisk({ ...resistor, acceptLow: 9000, acceptHigh: 9001 }));
    expect(far).toMatchObject({ accepted: 0, acceptedWrongly: 0 });
  });
});
