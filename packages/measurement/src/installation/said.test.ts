import { describe, expect, it } from 'vitest';
import { opened, refusalOf } from '../testing/opened.ts';
import type { WorkingLine } from '../working/worked.ts';
import { gradeAirflow, gradeDuctLeakage, gradeFanWatts, graded } from './grade.ts';
import { installationGrades } from './overall.ts';
import { grades310 } from './thresholds.ts';

const tasks = {
  designReview: true,
  ductLeakage: 'I',
  airflow: 'II',
  fanWatts: 'I',
  charge: 'I',
} as const;

type Stepped = { steps: WorkingLine[] };

describe('a grade that cannot be given', () => {
  it.each([
    [
      'an airflow below zero',
      () => gradeAirflow({ measured: -1, design: 1200 }),
      'The measured airflow is -1; it must be zero or more.',
    ],
    [
      'a design of nothing',
      () => gradeAirflow({ measured: 1100, design: 0 }),
      'The designed airflow is 0; it must be above zero.',
    ],
    [
      'an uncertainty below zero',
      () => gradeAirflow({ measured: 1100, design: 1200, uncertainties: { measured: -1 } }),
      'The standard uncertainty of measured is -1; it must be zero or more.',
    ],
    [
      'a blower that draws less than nothing',
      () => gradeFanWatts({ watts: -5, airflow: 1200 }),
      'The blower’s draw is -5 W; it must be zero or more.',
    ],
    [
      'a blower that moves nothing',
      () => gradeFanWatts({ watts: 500, airflow: 0 }),
      'The airflow is 0 cfm; it must be above zero.',
    ],
    [
      'duct leakage below zero',
      () => gradeDuctLeakage(-2),
      'The duct leakage is -2 cfm per 100 ft²; it must be zero or more.',
    ],
    [
      'duct leakage without the company’s limits',
      () => gradeDuctLeakage(4),
      'The duct tables of the standard were not seen; the company has to set the limits of the grades first.',
    ],
    [
      'a figure that is no number',
      () => graded('Deviation', '%', NaN, null, '', grades310.airflowDeviation),
      'Deviation is NaN %; it must be a number.',
    ],
    [
      'a word that is no grade',
      () => installationGrades({ ...tasks, charge: 'IV' as 'III' }),
      '"IV" is no grade; there are I, II and III.',
    ],
  ])('%s is refused in words', (_what, compute, words) => {
    expect(refusalOf<unknown>(compute())).toBe(words);
  });
});

describe('the working of a grade', () => {
  it.each([
    [
      'the airflow',
      () => gradeAirflow({ measured: 1080, design: 1200 }),
      ['Airflow’s deviation from the design | (1080 − 1200) / 1200 × 100 | %'],
    ],
    [
      'the blower’s draw',
      () => gradeFanWatts({ watts: 540, airflow: 1200 }),
      ['Blower’s draw per airflow | 540 / 1200 | W/cfm'],
    ],
    ['duct leakage', () => gradeDuctLeakage(4, grades310.wattsPerCfm), ['Duct leakage | 4 | cfm/100ft2']],
  ])('of %s', (_what, compute, lines) => {
    const { steps } = opened<Stepped>(compute());
    expect(steps.map(({ label, working, unit }) => `${label} | ${working} | ${unit}`)).toEqual(lines);
  });
});

describe('what has to be known of a grade', () => {
  it.each([
    [
      'limits that nobody confirmed',
      () => gradeAirflow({ measured: 1080, design: 1200 }),
      ['the limits of the grades are not confirmed; the company sets them'] as string[],
    ],
    [
      'a design review that was not passed',
      () => installationGrades({ ...tasks, designReview: false }),
      ['what comes after design-review counts as grade III (from memory)'] as string[],
    ],
    [
      'ducts that were not tested',
      () => installationGrades({ ...tasks, ductLeakage: null }),
      ['what comes after duct-leakage counts as grade III (from memory)'] as string[],
    ],
    [
      'an airflow of grade III',
      () => installationGrades({ ...tasks, airflow: 'III' }),
      ['what comes after airflow counts as grade III (from memory)'] as string[],
    ],
    ['everything passed', () => installationGrades(tasks), [] as string[]],
  ])('of %s', (_what, compute, remarks) => {
    expect(opened<{ remarks: string[] }>(compute()).remarks).toEqual(remarks);
  });
});
