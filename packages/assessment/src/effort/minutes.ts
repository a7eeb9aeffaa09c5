import type { TestKey } from '@countercheck/measurement';

/** What a rater has to be trained for; which tests ask for which is in the table below. */
export const qualifications = ['airtightness', 'airflow', 'combustion-safety', 'quality-visits'] as const;
export type Qualification = (typeof qualifications)[number];

interface TestEffort {
  /** setting up and taking down, once a visit, min */
  setUp: number;
  /** on each subject, min */
  each: number;
  /** how often it has to be done at all where another result may spare it, 0…1 */
  share: number;
  /** tests of one group share one set-up: the longest of them */
  group: string;
  qualification: Qualification;
}

/** Arriving, walking through, photos, telling the site what was found, min. Common practice, no published source. */
export const visitBaseMinutes = 20;

/** Minutes of each test; all of them common practice, no published source. */
export const effortMinutes: Record<TestKey, TestEffort> = {
  'supply-static': { setUp: 5, each: 5, share: 1, group: 'static', qualification: 'airflow' },
  'return-static': { setUp: 5, each: 5, share: 1, group: 'static', qualification: 'airflow' },
  'bedroom-pressure': { setUp: 5, each: 4, share: 1, group: 'bedroom', qualification: 'airflow' },
  'bedroom-relief': { setUp: 5, each: 6, share: 0.25, group: 'hood', qualification: 'airflow' },
  'duct-leakage-rough': { setUp: 20, each: 15, share: 1, group: 'ducts', qualification: 'airtightness' },
  'duct-leakage-total': { setUp: 20, each: 15, share: 1, group: 'ducts', qualification: 'airtightness' },
  'duct-leakage-outdoors': { setUp: 10, each: 15, share: 0.5, group: 'ducts', qualification: 'airtightness' },
  'ventilator-duct-leakage': { setUp: 10, each: 15, share: 1, group: 'ducts', qualification: 'airtightness' },
  'envelope-leakage': { setUp: 20, each: 20, share: 1, group: 'envelope', qualification: 'airtightness' },
  'whole-house-ventilation': { setUp: 3, each: 10, share: 1, group: 'hood', qualification: 'airflow' },
  'kitchen-exhaust': { setUp: 3, each: 5, share: 1, group: 'hood', qualification: 'airflow' },
  'bath-exhaust': { setUp: 3, each: 4, share: 1, group: 'hood', qualification: 'airflow' },
  'ambient-carbon-monoxide': {
    ...{ setUp: 2, each: 3, share: 1, group: 'combustion', qualification: 'combustion-safety' },
  },
  depressurization: {
    ...{ setUp: 10, each: 10, share: 1, group: 'combustion', qualification: 'combustion-safety' },
  },
  spillage: { setUp: 2, each: 6, share: 1, group: 'combustion', qualification: 'combustion-safety' },
  'flue-carbon-monoxide': {
    ...{ setUp: 5, each: 8, share: 1, group: 'combustion', qualification: 'combustion-safety' },
  },
};
