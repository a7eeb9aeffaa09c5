import { type FigureSource, fromMemory, seen } from '../working/figure-source.ts';

/** Grades of an installation: I is the best; what misses II is III. */
export type Grade = 'I' | 'II' | 'III';

/** A span of a measured figure; each end is included and null leaves it open. */
export interface Span {
  low: number | null;
  high: number | null;
}

/** Where the grades of one task end. A null span has no grade of its own. */
export interface GradeThresholds {
  gradeI: Span;
  gradeII: Span | null;
  unit: string;
  source: FigureSource;
}

/**
 * Thresholds of ANSI/RESNET/ACCA 310-2020 as far as anybody here remembers them. None was seen, so none is
 * confirmed: the company sets its own before it uses the grades. For duct leakage only the existence of Table 2a
 * (grade I) and Table 3a (grade II) was seen at a duct maker’s page (address withheld), and for the weighed charge no
 * tolerance is remembered; both are null, and grading by them is refused until the company gives them.
 */
export const grades310: {
  airflowDeviation: GradeThresholds;
  wattsPerCfm: GradeThresholds;
  ductLeakage: GradeThresholds | null;
  chargeDeviation: GradeThresholds | null;
} = {
  airflowDeviation: {
    gradeI: { low: -15, high: 15 },
    gradeII: { low: -25, high: 25 },
    unit: '%',
    source: fromMemory('ANSI/RESNET/ACCA 310-2020, 6 (the upper end of grade II is the least certain)'),
  },
  wattsPerCfm: {
    gradeI: { low: null, high: 0.45 },
    gradeII: { low: null, high: 0.58 },
    unit: 'W/cfm',
    source: fromMemory('ANSI/RESNET/ACCA 310-2020, 7'),
  },
  ductLeakage: null,
  chargeDeviation: null,
};

/**
 * The five tasks of ANSI/RESNET/ACCA 310-2020 in their order. Two descriptions were seen that differ in how many of
 * them have to be passed before the next is worth doing: three at the bookshop of the code's publisher (the gates
 * here, the stricter reading), two at https://www.acca.org/viewdocument/resnetacca-standard-310-2020-stan
 */
export const tasks310 = {
  order: ['design-review', 'duct-leakage', 'airflow', 'fan-watts', 'charge'],
  gates: ['design-review', 'duct-leakage', 'airflow'],
  /** the gates of the other description; the company may take it */
  fewerGates: ['design-review', 'duct-leakage'],
  source: seen(
    'ANSI/RESNET/ACCA 310-2020, five tasks in order, as at https://shop.iccsafe.org/quickview/product/quickview/id/56071/',
  ),
} as const;

/** A task that has to be passed before those behind it count. */
export type Gate = (typeof tasks310.gates)[number];
