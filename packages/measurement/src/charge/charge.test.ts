import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { opened, refusedWith } from '../testing/opened.ts';
import { propagate } from '../uncertainty/propagate.ts';
import { seen } from '../working/figure-source.ts';
import { chargeMethods, chargeTolerances, withinChargeTolerance } from './tolerance.ts';
import { type ChargeByPlate, chargeByWeight, gradeChargeByWeight } from './weigh-in.ts';

const plate: ChargeByPlate = {
  factoryCharge: 96,
  includedLength: 15,
  installedLength: 40,
  perFoot: 0.6,
  removeWhenShorter: true,
};
const own = {
  gradeI: { low: -3, high: 3 },
  gradeII: null,
  unit: '%',
  source: seen('the company’s own'),
};

describe('charge by weight', () => {
  // 96 + (40 − 15) × 0.6 = 111, by hand.
  it('adds for a longer line set and other parts', () => {
    const found = opened(
      chargeByWeight({ ...plate, otherCorrection: -3, uncertainties: { installedLength: 2 } }),
    );
    expect(found).toMatchObject({ value: 108, unit: 'oz', standardUncertainty: 1.2, remarks: [] });
    expect(found.steps.map(({ working }) => working)).toEqual(['(40 − 15) × 0.6', '96 + (15) + (-3)']);
    expect(opened(chargeByWeight(plate))).toMatchObject({ value: 111, standardUncertainty: null });
  });

  it('takes off for a shorter one only where the instructions say so', () => {
    const short = { ...plate, installedLength: 5 };
    expect(opened(chargeByWeight(short)).value).toBeCloseTo(90, 9);
    const kept = opened(
      chargeByWeight({ ...short, removeWhenShorter: false, uncertainties: { installedLength: 2 } }),
    );
    expect(kept).toMatchObject({ value: 96, standardUncertainty: 0 });
    expect(kept.remarks[0]).toContain('nothing is taken off');
    expect(kept.steps[0]?.working).toBe('max(0, (5 − 15) × 0.6)');
    expect(opened(chargeByWeight({ ...plate, removeWhenShorter: false })).value).toBe(111);
  });

  it('grows with the line set', () => {
    const length = fc.double({ min: 0, max: 150, noNaN: true });
    fc.assert(
      fc.property(length, length, fc.boolean(), (a, b, removeWhenShorter) => {
        const at = (installedLength: number) =>
          opened(chargeByWeight({ ...plate, installedLength, removeWhenShorter })).value;
        expect(at(Math.max(a, b))).toBeGreaterThanOrEqual(at(Math.min(a, b)));
      }),
    );
  });

  it('refuses what cannot be', () => {
    expect(refusedWith(chargeByWeight({ ...plate, factoryCharge: 0 }))).toBe(
      'not-above-zero at factoryCharge',
    );
    expect(refusedWith(chargeByWeight({ ...plate, includedLength: -1 }))).toBe(
      'below-zero at includedLength',
    );
    expect(refusedWith(chargeByWeight({ ...plate, installedLength: NaN }))).toBe(
      'below-zero at installedLength',
    );
    expect(refusedWith(chargeByWeight({ ...plate, perFoot: -1 }))).toBe('below-zero at perFoot');
    expect(refusedWith(chargeByWeight({ ...plate, otherCorrection: NaN }))).toBe(
      'not-a-number at otherCorrection',
    );
    expect(refusedWith(chargeByWeight({ ...plate, otherCorrection: -111 }))).toBe(
      'nothing-left at otherCorrection',
    );
    expect(refusedWith(chargeByWeight({ ...plate, uncertainties: { installedLength: -1 } }))).toBe(
      'bad-uncertainty at uncertainties.installedLength',
    );
  });

  it('is graded by the company’s tolerance only', () => {
    expect(refusedWith(gradeChargeByWeight(111, 111))).toBe('limits-not-set at thresholds');
    expect(opened(gradeChargeByWeight(103, 100, own))).toMatchObject({ value: 3, grade: 'I', unit: '%' });
    const low = opened(gradeChargeByWeight(96, 100, own));
    expect(low).toMatchObject({ value: -4, grade: 'III', standardUncertainty: null });
    expect(low.steps[0]?.working).toBe('(96 − 100) / 100 × 100');
    expect(refusedWith(gradeChargeByWeight(-1, 100, own))).toBe('below-zero at weighed');
    expect(refusedWith(gradeChargeByWeight(1, 0, own))).toBe('not-above-zero at expected');
    expect(refusedWith(gradeChargeByWeight(1, 1, own, { weighed: -1 }))).toBe(
      'bad-uncertainty at uncertainties.weighed',
    );
  });

  it('propagates the uncertainties as differences do', () => {
    const found = opened(gradeChargeByWeight(103, 111, own, { weighed: 1, expected: 0.6 }));
    const inputs = [
      { value: 103, u: 1 },
      { value: 111, u: 0.6 },
    ];
    const by = opened(propagate(([w = 0, e = 1]) => ((w - e) / e) * 100, inputs));
    expect(found.standardUncertainty).toBeCloseTo(by.standardUncertainty, 6);
  });
});

describe('tolerances of charge', () => {
  // California RA3.2 (2008), pages 15 to 17 at the address in the data (seen).
  it.each([
    ['superheat-fixed-metering', 5, 6],
    ['subcooling-expansion-valve', 3, 4],
    ['temperature-split', 3, 4],
  ] as const)('of %s are ±%s °F for the installer and ±%s °F for the rater', (method, installer, rater) => {
    const target = 12;
    const at = (by: 'installer' | 'rater', off: number) =>
      opened(withinChargeTolerance({ method, by, measured: target + off, target })).within;
    for (const sign of [-1, 1]) {
      expect(at('installer', sign * installer)).toBe(true);
      expect(at('installer', sign * (installer + 0.1))).toBe(false);
      expect(at('rater', sign * rater)).toBe(true);
      expect(at('rater', sign * (rater + 0.1))).toBe(false);
    }
  });

  it('of an expansion valve’s superheat are 4 to 25 and 3 to 26 °F', () => {
    const method = 'superheat-expansion-valve';
    const at = (by: 'installer' | 'rater', measured: number) =>
      opened(withinChargeTolerance({ method, by, measured })).within;
    expect([4, 25, 3.9, 25.1].map((one) => at('installer', one))).toEqual([true, true, false, false]);
    expect([3, 26, 2.9, 26.1].map((one) => at('rater', one))).toEqual([true, true, false, false]);
  });

  it('are wider for the rater in every test', () => {
    for (const method of chargeMethods) {
      const { installer, rater, source } = chargeTolerances[method];
      expect([rater[0] - installer[0], rater[1] - installer[1]]).toEqual([-1, 1]);
      expect(source).toMatchObject({ kind: 'published', confirmed: true });
    }
  });

  it('come with deviation, working and uncertainty', () => {
    const reading = { method: 'temperature-split', by: 'rater', measured: 17, target: 20 } as const;
    const found = opened(withinChargeTolerance({ ...reading, standardUncertainty: 0.8 }));
    expect(found).toMatchObject({ value: -3, unit: '°F', allowed: [-4, 4], standardUncertainty: 0.8 });
    expect(found.steps[0]).toMatchObject({ label: 'Deviation from the target', working: '17 − 20' });
    const valve = { method: 'superheat-expansion-valve', by: 'rater', measured: 9, target: 20 } as const;
    expect(opened(withinChargeTolerance(valve))).toMatchObject({
      value: 9,
      standardUncertainty: null,
      steps: [{ label: 'Superheat', working: '9' }],
    });
  });

  it('refuse what cannot be', () => {
    const reading = { method: 'temperature-split', by: 'rater', measured: 17 } as const;
    expect(refusedWith(withinChargeTolerance(reading))).toBe('not-a-number at target');
    expect(refusedWith(withinChargeTolerance({ ...reading, measured: NaN }))).toBe(
      'not-a-number at measured',
    );
    expect(refusedWith(withinChargeTolerance({ ...reading, method: 'x' as 'temperature-split' }))).toBe(
      'unknown-choice at method',
    );
    expect(refusedWith(withinChargeTolerance({ ...reading, by: 'x' as 'rater' }))).toBe(
      'unknown-choice at by',
    );
    expect(refusedWith(withinChargeTolerance({ ...reading, standardUncertainty: -1 }))).toBe(
      'bad-uncertainty at uncertainties.measured',
    );
  });
});
