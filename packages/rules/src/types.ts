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

/**
 * How a result near its limit is decided (JCGM 106, from memory; ILAC G8:09/2019 §4). With simple acceptance the
 * result alone decides. With a guard band a result is accepted only when it keeps w = factor × U from the limit,
 * U being the expanded uncertainty (95 %) of the comparison.
 */
export type DecisionRule = { rule: 'simple-acceptance' } | { rule: 'guard-band'; factor: number };

export interface SubjectFacts {
  id: string;
  kind: SubjectKind;
  label: string;
  /** named quantities of this subject, e.g. ductsInside, venting, supplyFlow */
  facts: Record<string, Value>;
  /** the installer's signed figures for this subject; null = not reported; undefined hidden figures are null with `hidden` */
  reported: Record<string, number | null>;
  /** the revision each figure was signed in, where the installer signed more than one that was read against */
  reportedRevisions?: Record<string, number>;
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
  /** a newer reading that does not count: it judges nothing, but may stop the work */
  later?: Measured;
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
  /** the company's decision rule; absent means simple acceptance */
  decision?: DecisionRule | undefined;
}

/** Whether the rater's and the installer's figures can both be right: |difference| against its uncertainty. */
export interface Agreement {
  verdict: 'agrees' | 'differs';
  /** rater minus installer, in the comparison's unit */
  difference: number;
  /** expanded uncertainty (95 %) of that difference, in the same unit */
  expandedUncertainty: number;
  words: string;
}

/** What the words of a comparison of numbers are made of beside its numbers, so that other units can be spoken. */
export interface Said {
  /** as a share of a figure, as a balance of two, or against limits */
  as: 'share' | 'balance' | 'bound';
  /** the figure compared with, in the comparison's unit; null against limits alone */
  base: number | null;
  /** what that figure is: "reported", "designed", "measured"; of a balance its label */
  of: string | null;
  /** cfm per 100 ft² where the limit goes by the floor area */
  perArea: number | null;
  /** the limit goes by the climate zone */
  byZone: boolean;
  /** under a guard band: where the reading has to be */
  aim: { value: number; bound: 'at-most' | 'at-least' | 'above' | 'exactly' } | null;
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
  /** null where no numbers were compared; absent in verdicts kept from before it was told */
  said?: Said | null;
  /** the limits that wait for a value which is not there yet; absent where none are known */
  ahead?: { low: number | null; high: number | null };
  /** of value minus limit, in the comparison's unit: both sides of a ratio enter; null when not known */
  standardUncertainty: number | null;
  /** the same at 95 %; k = 2 unless degrees of freedom say otherwise */
  expandedUncertainty: number | null;
  /** probability that the true value lies outside the limit, normal distribution (JCGM 106); 0 to 1 */
  chanceOutside: number | null;
  /** width of the guard band inside the limit, in the comparison's unit; null under simple acceptance */
  guardBand: number | null;
  /** nearer to the limit than the expanded uncertainty, on either side of it */
  closeToLimit: boolean;
  /** only where the value is compared with a figure that the installer reported */
  agreement: Agreement | null;
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
  /** with the comparison where numbers were compared */
  applies: { words: string; holds: boolean; comparison?: Comparison }[];
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
    /** of a reported figure: which of the installer's revisions it is from, where there are several */
    revision?: number;
  }[];
  /** what would change the verdict, in words */
  wouldChange: string[];
  /** the rule by which results near a limit were decided */
  decisionRule: DecisionRule;
  /** false while a limit that entered the verdict is not confirmed: the page says so */
  limitConfirmed: boolean;
  readingIds: string[];
  steps: Step[];
  /** what the reader must know about the readings, e.g. "extrapolated from 15 Pa" */
  remarks: string[];
}

/** One thing that would let a failed item pass; the nearest way first. */
export interface Take {
  /** the reading that just passes, in its raw quantity and stored unit; null when it cannot be told */
  reading: {
    name: string;
    label: string;
    value: number;
    unit: Unit;
    bound: 'at-most' | 'at-least' | 'above' | 'exactly';
    /** what was read, in the same quantity; null where nothing was, absent in verdicts kept from before */
    now?: number | null;
  } | null;
  /** key of the option or exemption when it is another way than the nearest one; null for the nearest */
  nextOption: string | null;
  words: string;
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
  /** it passes (or is exempt), but nearer to a limit than the expanded uncertainty of the reading */
  closeToLimit: boolean;
  /** "Passes, but close to the limit: 7 % chance that the true value is above." when closeToLimit */
  closeWords: string | null;
  /** what a failed item takes to pass; empty for any other status */
  takes: Take[];
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
