import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { flowMeter, instrument, manometer } from './testing/instruments.ts';
import { accuracyLimit, powerUncertainty, standardUncertainty } from './uncertainty.ts';

describe('accuracyLimit', () => {
  // "1 % or 0.25 Pa", whichever is larger: the change-over lies at 25 Pa.
  it.each([
    [10, 0.25],
    [25, 0.25],
    [50, 0.5],
    [-50, 0.5],
  ])('at %s Pa is %s Pa', (reading, limit) => {
    expect(accuracyLimit(manometer, reading)).toBe(limit);
  });

  it('is not known without a usable accuracy', () => {
    for (const part of [
      { accuracyPercent: 0, accuracyAbsolute: 0 },
      { accuracyPercent: -1, accuracyAbsolute: 1 },
      { accuracyPercent: 1, accuracyAbsolute: NaN },
      { accuracyPercent: Infinity, accuracyAbsolute: 1 },
    ]) {
      expect(accuracyLimit(part, 10)).toBeNull();
    }
    expect(accuracyLimit(manometer, NaN)).toBeNull();
    expect(accuracyLimit({ accuracyPercent: 0, accuracyAbsolute: 2 }, 10)).toBe(2);
    expect(accuracyLimit({ accuracyPercent: 2, accuracyAbsolute: 0 }, 10)).toBe(0.2);
  });
});

describe('standardUncertainty', () => {
  it('is the accuracy over the square root of three', () => {
    expect(standardUncertainty(manometer, 50, 'pressureDifference')).toBeCloseTo(0.5 / Math.sqrt(3), 12);
    expect(standardUncertainty(flowMeter, 100, 'airflow')).toBeCloseTo(10 / Math.sqrt(3), 12);
  });

  it('is given in the unit of the reading: 0.5 in. w.c. is read to 1 % of 124.5 Pa', () => {
    expect(standardUncertainty(manometer, 0.5, 'staticPressure')).toBeCloseTo(0.005 / Math.sqrt(3), 12);
    expect(standardUncertainty(manometer, 0.01, 'staticPressure')).toBeCloseTo(
      0.25 / 249.08891 / Math.sqrt(3),
      12,
    );
  });

  it('is not known without an instrument, across dimensions, or for no number', () => {
    expect(standardUncertainty(null, 50, 'airflow')).toBeNull();
    expect(standardUncertainty(manometer, 50, 'airflow')).toBeNull();
    expect(standardUncertainty(manometer, NaN, 'pressureDifference')).toBeNull();
    expect(
      standardUncertainty(instrument('manometer', { accuracyPercent: 0 }), 5, 'pressureDifference'),
    ).toBeNull();
  });
});

describe('powerUncertainty', () => {
  it('scales the share of the pressure by the exponent', () => {
    expect(powerUncertainty(100, 0.5, 50, 1)).toBeCloseTo(1, 12);
    expect(powerUncertainty(-100, -0.5, -50, 1)).toBeCloseTo(1, 12);
    expect(powerUncertainty(100, 0.5, 50, 0)).toBe(0);
  });

  it('agrees with the difference of two flows for a small uncertainty', () => {
    const parts = [
      fc.double({ min: 0.3, max: 2, noNaN: true }),
      fc.double({ min: 5, max: 100, noNaN: true }),
    ] as const;
    fc.assert(
      fc.property(...parts, (n, pressure) => {
        const u = pressure * 1e-6;
        const moved = 120 * (pressure + u) ** n - 120 * pressure ** n;
        expect((powerUncertainty(120 * pressure ** n, n, pressure, u) ?? NaN) / moved).toBeCloseTo(1, 4);
      }),
    );
  });

  it('is not known at zero pressure, below zero uncertainty or for no number', () => {
    expect(powerUncertainty(100, 0.5, 0, 1)).toBeNull();
    expect(powerUncertainty(100, 0.5, 50, -1)).toBeNull();
    expect(powerUncertainty(NaN, 0.5, 50, 1)).toBeNull();
  });
});
