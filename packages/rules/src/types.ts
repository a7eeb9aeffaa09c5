import type {
  MeasuredValue,
  QuantityKind,
  Step,
  SubjectKind,
  TestKey,
  Unit,
} from '@countercheck/measurement';

export type Value = number | string | boolean | null;

export const statuses = ['pass', 'fail', 'exempt', 'not-applicable', 'waiting'] as const;
export type Status = (typeof statuses)[number];

/** Who in the house's trades usually corrects a failed item. */
export const trades = [
  'hvac-installer',
  'insulator-air-sealer',
  'electrician',
  'builder',
  'plumber',
] as const;
export type Trade = (typeof trades)[number];

/** Where a limit or rule comes from and how sure the company is of it. */
export interface Source {
  kind: 'published' | 'common-practice' | 'from-memory' | 'computed';
  /** title, edition, section, and address when seen; for common practice the words `common practice, no published source` */
  citation: string;
  /** true when the company (or a seen text) confirmed the figure; an unconfirmed limit says so on the page */
  confirmed: boolean;
}

export interface SubjectFacts {
  id: string;
  kind: SubjectKind;
  label: string;
  /** named quantities of this subject, e.g. ductsInside, venting, supplyFlow */
  facts: Record<string, Value>;
  /** the installer's signed figures for this subject; null = not reported; undefined hidden figures are null with `hidden` */
  reported: Record<string, number | null>;
  /** true while the blind second reading hides the installer's figures */
  reportedHidden: boolean;
  /** which figures are hidden when only some are; absent means that `reportedHidden` covers them all */
  hiddenFigures?: readonly string[];
}

/** What a test gave on one subject, after measurement and after the calibration check. */
export interface Measured {
  values: Record<string, MeasuredValue>;
  /** false when the reading does not count (instrument out of calibration on the day, …) */
  counts: boolean;
  whyNot: string | null;
  remarks: string[];
  steps: Step[];
  readingIds: string[];
}

/** Everything the rules may look at; pure data. */
export interface Facts {
  /** conditionedFloorArea (ft2), conditionedVolume (ft3), bedrooms, storeys, climateZone ('5A'), foundation,
   *  ventilationKind ('none'|'exhaust'|'supply'|'balanced'), ventilatorDucted, designedVentilation (cfm),
   *  allDuctsInside (every system's ducts and air handler visibly inside), hasDucts, … */
  house: Record<string, Value>;
  /** includes the house itself as {id: 'house', kind: 'house'} */
  subjects: SubjectFacts[];
  /** measured[test][subjectId]; totals over subjects are under the subject `house` */
  measured: Partial<Record<TestKey, Record<string, Measured>>>;
}

export interface Comparison {
  /** name of the quantity looked at, e.g. `measured.leakageAt25` */
  name: string;
  label: string;
  quantity: QuantityKind;
  value: number | null;
  unit: Unit;
  /** the bound(s) in the same unit; null when open */
  low: number | null;
  high: number | null;
  holds: boolean | null;
  /** in words, e.g. "0.092 in. w.c. is 108 % of the reported 0.085; limit 110 %" */
  words: string;
  /** the reading that would just hold, in words; null when it holds */
  needed: string | null;
}

export interface OptionTrace {
  option: string;
  title: string;
  comparisons: Comparison[];
  verdict: 'holds' | 'fails' | 'incomplete';
  /** quantities still missing, in words */
  missing: string[];
  source: Source;
}

export interface ExemptionTrace {
  exemption: string;
  title: string;
  comparisons: Comparison[];
  verdict: 'holds' | 'fails' | 'incomplete';
  source: Source;
}

export interface Trace {
  applies: { words: string; holds: boolean }[];
  exemptions: ExemptionTrace[];
  options: OptionTrace[];
  /** which option or exemption decided */
  decidedBy: string | null;
  inputs: {
    name: string;
    label: string;
    value: Value;
    unit: string | null;
    from: 'house' | 'subject' | 'reported' | 'measured';
  }[];
  /** what would change the verdict, in words */
  wouldChange: string[];
  readingIds: string[];
  steps: Step[];
  /** what the reader must know about the readings, e.g. "extrapolated from 15 Pa" */
  remarks: string[];
}

export interface ItemVerdict {
  item: string;
  title: string;
  stage: 'rough' | 'final';
  subjectId: string;
  subjectKind: SubjectKind;
  subjectLabel: string;
  tests: TestKey[];
  status: Status;
  /** one sentence for people */
  reason: string;
  /** the deciding comparison, for lists; null when nothing was compared */
  headline: Comparison | null;
  trace: Trace;
  /** other items whose readings enter this verdict */
  dependsOn: string[];
  trade: Trade;
  correction: string;
  cautions: string[];
  /** safety items hold back the release of the house while they wait or fail */
  safety: boolean;
  /** a stop-work threshold is reached: people act first */
  stopWork: string | null;
}

export interface Scorecard {
  ruleSet: { key: string; version: string };
  verdicts: ItemVerdict[];
  counts: Record<Status, number>;
  /** every item pass, exempt or not applicable, and no stop-work */
  releasable: boolean;
  stopWork: string[];
}
