import type { QuantityKind, Unit } from './quantities.ts';

/** What a test is done on. `house` tests have one subject: the house itself, with the id `house`. */
export const subjectKinds = [
  'house',
  'system',
  'bedroom',
  'bath',
  'kitchen',
  'ventilator',
  'appliance',
] as const;
export type SubjectKind = (typeof subjectKinds)[number];

/** Instruments that a rater carries, named as the trade names them. */
export const instrumentKinds = [
  'manometer',
  'blower-door',
  'duct-tester',
  'flow-hood',
  'powered-flow-hood',
  'exhaust-flow-meter',
  'combustion-analyzer',
  'ambient-co-monitor',
  'thermometer',
  'tape-measure',
  'stopwatch',
] as const;
export type InstrumentKind = (typeof instrumentKinds)[number];

/** One test that a rater can do; a reading belongs to one test on one subject. */
export const testKeys = [
  'supply-static',
  'return-static',
  'bedroom-pressure',
  'bedroom-relief',
  'duct-leakage-rough',
  'duct-leakage-total',
  'duct-leakage-outdoors',
  'ventilator-duct-leakage',
  'envelope-leakage',
  'whole-house-ventilation',
  'kitchen-exhaust',
  'bath-exhaust',
  'ambient-carbon-monoxide',
  'spillage',
  'depressurization',
  'flue-carbon-monoxide',
] as const;
export type TestKey = (typeof testKeys)[number];

/** Calibration of one range (ring, plate, hole setting) of a flow device: flow = c * pressure^n. */
export interface RangeCalibration {
  range: string;
  /** cfm per Pa^n; null where there is a table instead */
  c: number | null;
  /** pressure exponent, dimensionless; null where there is a table instead */
  n: number | null;
  /** lowest and highest device pressure (Pa) for which the coefficients or the table hold */
  minPa: number;
  maxPa: number;
  /** the maker's table of pressures (Pa) and flows (cfm); where it is given, c and n are not used */
  table?: { pressure: number; flow: number }[] | null | undefined;
}

export interface InstrumentFacts {
  id: string;
  kind: InstrumentKind;
  label: string;
  /** accuracy: the larger of a share of the reading (%) and an absolute figure in the native unit */
  accuracyPercent: number;
  accuracyAbsolute: number;
  /** smallest step the display shows, in the native unit; null when not stated */
  resolution: number | null;
  /** ISO dates (yyyy-mm-dd) of the calibration in force when the reading was taken; null when there is none */
  calibratedOn: string | null;
  dueOn: string | null;
  ranges: RangeCalibration[];
}

/** One number a rater enters. Limits are of the plausible, outside which the entry is refused in words. */
export interface FieldDefinition {
  key: string;
  label: string;
  quantity: QuantityKind;
  min: number;
  max: number;
  required: boolean;
  /** a negative value is meaningful (a pressure with a sign) */
  signed: boolean;
  help?: string;
}

export interface ChoiceDefinition {
  key: string;
  label: string;
  required: boolean;
  /** `instrument-range` offers the ranges of the chosen instrument instead of the options listed */
  from: 'options' | 'instrument-range';
  options: { value: string; label: string }[];
  help?: string;
}

export interface RowsDefinition {
  label: string;
  /** one row is one terminal, inlet, opening or point */
  rowLabel: string;
  min: number;
  max: number;
  fields: FieldDefinition[];
  choices: ChoiceDefinition[];
}

/** What the rater must have set up before the reading counts, ticked one by one. */
export interface ConfirmationDefinition {
  key: string;
  label: string;
}

export interface RawRow {
  label: string;
  values: Record<string, number>;
  choices: Record<string, string>;
}

/** A raw reading in stored units. Keys are those of the test's definition. */
export interface RawReading {
  values: Record<string, number>;
  choices: Record<string, string>;
  rows: RawRow[];
  confirmations: Record<string, boolean>;
}

/** One line of the working: what was computed, from what, giving what. */
export interface Step {
  label: string;
  /** the formula with the numbers in it, e.g. "70 × (25 / 15)^0.60" */
  working: string;
  value: number;
  unit: Unit;
}

export interface MeasuredValue {
  key: string;
  label: string;
  quantity: QuantityKind;
  value: number;
  unit: Unit;
  /** standard uncertainty in the same unit; null when not known */
  standardUncertainty: number | null;
  /** expanded uncertainty at 95 % in the same unit, U = k · u; null when not known */
  expandedUncertainty: number | null;
  /** k of the expanded uncertainty; 2 unless degrees of freedom say otherwise; null when not known */
  coverageFactor: number | null;
}

export interface Problem {
  /** where in the raw reading: `values.flow`, `rows.1.values.flow`, `choices.range`, `instrument` … */
  path: string;
  /** stable code, e.g. `below-range`, `zero-pressure`, `missing`, `out-of-plausible-range`, `wrong-instrument` */
  code: string;
  /** in words, with the value and what to do */
  message: string;
}

export type TestOutcome =
  | {
      ok: true;
      values: MeasuredValue[];
      steps: Step[];
      /** e.g. "extrapolated from 15 Pa" */ remarks: string[];
    }
  | { ok: false; problems: Problem[] };

export interface TestDefinition {
  key: TestKey;
  title: string;
  /** one sentence: how it is done */
  how: string;
  subject: SubjectKind;
  stage: 'rough' | 'final';
  instrumentKinds: readonly InstrumentKind[];
  /** false when the reading can be taken without an instrument on the company's list, e.g. with any watch */
  instrumentRequired: boolean;
  fields: FieldDefinition[];
  choices: ChoiceDefinition[];
  rows: RowsDefinition | null;
  confirmations: ConfirmationDefinition[];
  cautions: string[];
  /** result keys it can give, with their quantity */
  gives: { key: string; label: string; quantity: QuantityKind }[];
  /** Never throws: impossible input comes back as problems. */
  compute(raw: RawReading, instrument: InstrumentFacts | null): TestOutcome;
}
