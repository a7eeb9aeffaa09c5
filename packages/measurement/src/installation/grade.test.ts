import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { opened, refusedWith } from '../testing/opened.ts';
import { propagate } from '../uncertainty/propagate.ts';
import { seen } from '../working/figure-source.ts';
import { gradeAirflow, gradeDuctLeakage, gradeFanWatts, gradeOf } from './grade.ts';
import { installationGrades } from './overall.ts';
import { type GradeThresholds, grades310, tasks310 } from './thresholds.ts';

const own: GradeThresholds = {
  gradeI: { low: null, high: 4 },
  gradeII: { low: null, high: 8 },
  unit: 'cfm/100ft2',
  source: seen('the company’s own'),
};

describe('grade of the airflow', () => {
  // Boundaries for a design of 1,200 cfm: computed independently; the thresholds themselves from memory.
  it.each([
    [1020, -15, 'I'],
    [1019, -15.0833, 'II'],
    [1380, 15, 'I'],
    [1381, 15.0833, 'II'],
    [900, -25, 'II'],
    [899, -25.0833, 'III'],
    [1500, 25, 'II'],
    [1501, 25.0833, 'III'],
    [0, -100, 'III'],
  ])('of %s cfm deviates by %s % and is %s', (measured, deviation, grade) => {
    const found = opened(gradeAirflow({ measured, design: 1200 }));
    expect(found.value).toBeCloseTo(deviation, 4);
    expect(found).toMatchObject({ grade, unit: '%', source: { confirmed: false } });
    expect(found.remarks[0]).toContain('not confirmed');
  });

  it('shows the working and carries the uncertainty', () => {
    const found = opened(gradeAirflow({ measured: 1019, design: 1200, uncertainties: { measured: 36 } }));
    expect(found.steps[0]?.working).toBe('(1019 − 1200) / 1200 × 100');
    expect(found.standardUncertainty).toBeCloseTo(3, 9);
    expect(opened(gradeAirflow({ measured: 1019, design: 1200 })).standardUncertainty).toBeNull();
  });

  it('goes by the company’s own thresholds without a remark', () => {
    const wide = { ...own, gradeI: { low: -20, high: null }, gradeII: null };
    expect(opened(gradeAirflow({ measured: 960, design: 1200 }, wide))).toMatchObject({
      grade: 'I',
      remarks: [],
    });
    expect(opened(gradeAirflow({ measured: 959, design: 1200 }, wide)).grade).toBe('III');
  });

  it('depends on the ratio only and never improves with the distance', () => {
    const flow = fc.double({ min: 100, max: 3000, noNaN: true });
    fc.assert(
      fc.property(flow, flow, fc.double({ min: 0.2, max: 5, noNaN: true }), (measured, design, factor) => {
        const grade = opened(gradeAirflow({ measured, design })).grade;
        const away = design + (measured - design) * 1.1;
        fc.pre(away >= 0 && Math.abs(measured / design - 1) > 1e-6);
        expect(opened(gradeAirflow({ measured: away, design })).grade.length).toBeGreaterThanOrEqual(
          grade.length,
        );
        const scaled = opened(gradeAirflow({ measured: measured * factor, design: design * factor }));
        expect(scaled.value).toBeCloseTo(opened(gradeAirflow({ measured, design })).value, 6);
      }),
    );
  });

  it('refuses what cannot be', () => {
    expect(refusedWith(gradeAirflow({ measured: -1, design: 1200 }))).toBe('below-zero at measured');
    expect(refusedWith(gradeAirflow({ measured: 1, design: 0 }))).toBe('not-above-zero at design');
    expect(refusedWith(gradeAirflow({ measured: 1, design: 1, uncertainties: { measured: -1 } }))).toBe(
      'bad-uncertainty at uncertainties.measured',
    );
  });
});

describe('grade of the blower’s draw', () => {
  // Boundaries at 1,200 cfm: computed independently; the thresholds themselves from memory.
  it.each([
    [540, 0.45, 'I'],
    [541, 0.45083, 'II'],
    [696, 0.58, 'II'],
    [697, 0.58083, 'III'],
  ])('of %s W is %s W per cfm and %s', (watts, perCfm, grade) => {
    const found = opened(gradeFanWatts({ watts, airflow: 1200 }));
    expect(found.value).toBeCloseTo(perCfm, 5);
    expect(found).toMatchObject({ grade, unit: 'W/cfm', steps: [{ working: `${watts} / 1200` }] });
  });

  it('propagates the uncertainties as differences do', () => {
    const found = opened(
      gradeFanWatts({ watts: 540, airflow: 1200, uncertainties: { watts: 10, airflow: 40 } }),
    );
    const inputs = [
      { value: 540, u: 10 },
      { value: 1200, u: 40 },
    ];
    const by = opened(propagate(([w = 0, q = 1]) => w / q, inputs));
    expect(found.standardUncertainty).toBeCloseTo(by.standardUncertainty, 8);
    expect(opened(gradeFanWatts({ watts: 540, airflow: 1200 })).standardUncertainty).toBeNull();
  });

  it('refuses what cannot be', () => {
    expect(refusedWith(gradeFanWatts({ watts: -1, airflow: 1200 }))).toBe('below-zero at watts');
    expect(refusedWith(gradeFanWatts({ watts: 1, airflow: 0 }))).toBe('not-above-zero at airflow');
    expect(refusedWith(gradeFanWatts({ watts: 1, airflow: 1, uncertainties: { watts: -1 } }))).toBe(
      'bad-uncertainty at uncertainties.watts',
    );
  });
});

describe('grade of duct leakage', () => {
  it('waits for the company’s limits: the tables of the standard were not seen', () => {
    expect(refusedWith(gradeDuctLeakage(4))).toBe('limits-not-set at thresholds');
    expect(opened(gradeDuctLeakage(4, own, 0.2))).toMatchObject({
      grade: 'I',
      standardUncertainty: 0.2,
      remarks: [],
    });
    expect(opened(gradeDuctLeakage(4.01, own))).toMatchObject({ grade: 'II', standardUncertainty: null });
    expect(opened(gradeDuctLeakage(8.01, own)).grade).toBe('III');
    expect(refusedWith(gradeDuctLeakage(-1, own))).toBe('below-zero at leakage');
    expect(refusedWith(gradeDuctLeakage(1, own, -1))).toBe('bad-uncertainty at uncertainties.leakage');
  });

  it('gives no number no grade but the worst', () => {
    expect(gradeOf(NaN, own)).toBe('III');
    expect(gradeOf(4 + 1e-10, own)).toBe('I');
  });
});

describe('the grades in their order', () => {
  const best = { designReview: true, ductLeakage: 'I', airflow: 'II', fanWatts: 'I', charge: 'III' } as const;

  it('stand as measured when the gates are passed', () => {
    expect(opened(installationGrades(best))).toEqual({
      ductLeakage: 'I',
      airflow: 'II',
      fanWatts: 'I',
      charge: 'III',
      stoppedAt: null,
      remarks: [],
    });
  });

  it('are III behind the first gate that is not passed', () => {
    const worst = { ductLeakage: 'III', airflow: 'III', fanWatts: 'III', charge: 'III' };
    const review = opened(installationGrades({ ...best, designReview: false }));
    expect(review).toMatchObject({ ...worst, stoppedAt: 'design-review' });
    expect(review.remarks).toHaveLength(1);
    for (const ductLeakage of ['III', null] as const)
      expect(opened(installationGrades({ ...best, ductLeakage }))).toMatchObject({
        ...worst,
        stoppedAt: 'duct-leakage',
      });
    for (const airflow of ['III', null] as const)
      expect(opened(installationGrades({ ...best, airflow }))).toMatchObject({
        ...worst,
        ductLeakage: 'I',
        stoppedAt: 'airflow',
      });
    expect(opened(installationGrades({ ...best, fanWatts: null, charge: null }))).toMatchObject({
      fanWatts: 'III',
      charge: 'III',
      stoppedAt: null,
    });
  });

  it('go on behind the airflow by the description with two gates', () => {
    const found = opened(installationGrades({ ...best, airflow: 'III', charge: 'I' }, tasks310.fewerGates));
    expect(found).toMatchObject({ airflow: 'III', fanWatts: 'I', charge: 'I', stoppedAt: null });
    const ducts = opened(installationGrades({ ...best, ductLeakage: 'III' }, tasks310.fewerGates));
    expect(ducts).toMatchObject({ airflow: 'III', stoppedAt: 'duct-leakage' });
  });

  it('know no other grade', () => {
    expect(refusedWith(installationGrades({ ...best, charge: 'IV' as 'III' }))).toBe('bad-grade at charge');
    expect(tasks310.order).toHaveLength(5);
    expect([grades310.ductLeakage, grades310.chargeDeviation]).toEqual([null, null]);
  });
});
