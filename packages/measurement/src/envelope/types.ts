import type { WorkingLine } from '../working/worked.ts';

export type Direction = 'depressurise' | 'pressurise';

/** Air of a test. Densities from `airDensity` or `methodAirDensity`. */
export interface TestAir {
  /** how leakage is taken to standard conditions */
  form: 'E779' | 'ISO 9972';
  /** kg/m³ */
  densityInside: number;
  densityOutside: number;
  /** °F; used by the form E779 for the viscosity */
  temperatureInside: number;
  temperatureOutside: number;
}

/** One point of an envelope test as it was read. */
export interface EnvelopeReading {
  /** for the reader of findings; `Point 1` and so on when left out */
  label?: string;
  /** house to outdoors as read, Pa, with its sign: below zero when the fan draws air out; the baseline is still in */
  pressure: number;
  /** flow through the fan, cfm, above zero; corrected by its own calibration, not for density of the leakage */
  flow: number;
  /** standard uncertainties for the weighting `uncertainty`: of the pressure, Pa, and of the flow, cfm */
  pressureUncertainty?: number;
  flowUncertainty?: number;
}

/**
 * How much a point counts. `ordinary`: all alike, as ASTM E779 and ISO 9972 do. `flow-squared`: w = Q², for errors
 * of flow that are alike in cfm (as CGSB 149.10, from memory). `uncertainty`: w = 1 / (u(Q)²/Q² + n² · u(P)²/P²).
 */
export type Weighting = 'ordinary' | 'flow-squared' | 'uncertainty';

export interface EnvelopeTest {
  points: readonly EnvelopeReading[];
  /** house to outdoors with the fan covered and off, Pa, with the sign; one average or the readings it is made of */
  baselineBefore: number | readonly number[];
  baselineAfter?: number | readonly number[];
  /** `ordinary` when left out */
  weighting?: Weighting;
  /** pressure at which the flow is wanted besides 4, 10 and 50 Pa; 50 when left out */
  reference?: number;
  /** corrections for air density; none when left out */
  air?: TestAir;
  /** conditioned volume, ft³; floor area and area of the envelope, ft²; each adds a result */
  volume?: number;
  floorArea?: number;
  envelopeArea?: number;
  /** relative standard uncertainties that all points share (0.02 = 2 %); scatter does not show them */
  shared?: { flow?: number; pressure?: number; size?: number };
}

/** A result with its uncertainty, all in one unit. */
export interface EnvelopeFigure {
  key: string;
  label: string;
  value: number;
  unit: 'cfm' | 'in2' | '1/h' | 'cfm/100ft2' | 'cfm/ft2';
  standardUncertainty: number;
  /** 95 %, k · u; the interval is exact in logarithms and so a little wider above than below */
  expandedUncertainty: number;
  coverageFactor: number;
  low: number;
  high: number;
  /** the pressure lies outside those of the points */
  extrapolated: boolean;
}

/** A point as it was used, for charts and tables. */
export interface FittedPoint {
  label: string;
  /** index among the points given */
  index: number;
  /** pressure made by the fan without its sign, Pa, and flow as read, cfm */
  pressure: number;
  flow: number;
  /** flow of the line at that pressure, cfm */
  fitted: number;
  /** ln(flow / fitted) */
  residual: number;
  /** residual in standard deviations of that residual */
  standardized: number;
  /** the same with the point left out of the deviation: Student's t with N − 3 degrees of freedom */
  studentized: number;
  /** share of the line that the point itself decides, 0 to 1 */
  leverage: number;
  weight: number;
}

/** The power law of one direction. */
export interface DirectionFit {
  direction: Direction;
  points: FittedPoint[];
  /** n and its 95 % interval */
  exponent: number;
  exponentUncertainty: number;
  exponentLow: number;
  exponentHigh: number;
  /** C, cfm/Paⁿ, after corrections for density, with its 95 % interval; in number the flow at 1 Pa */
  coefficient: number;
  coefficientLow: number;
  coefficientHigh: number;
  /** C as the fan's flows give it, without corrections */
  coefficientAsRead: number;
  /** u(ln C) */
  logCoefficientUncertainty: number;
  /** of n and ln C */
  covariance: { exponent: number; logCoefficient: number; both: number };
  rSquared: number;
  /** standard deviation of ln flow about the line */
  residualDeviation: number;
  degreesOfFreedom: number;
  studentFactor: number;
  lowestPressure: number;
  highestPressure: number;
  /** what the interval at another pressure is made of: S(x)² = s² · (1/weight + (ln P − mean)² / spread) */
  meanLogPressure: number;
  weight: number;
  spread: number;
}

export interface BaselineSummary {
  /** mean that is taken off, Pa */
  mean: number;
  before: number;
  /** null when it was not read */
  after: number | null;
  /** after − before, Pa; null when there is no after */
  drift: number | null;
  /** standard deviation of the readings, Pa; null for averages */
  deviation: number | null;
}

export interface Finding {
  /** stable, e.g. `exponent-out-of-range` */
  code: string;
  /** `invalid`: the named method does not accept the test; `remark`: look at it */
  severity: 'invalid' | 'remark';
  /** what was found, what is asked, what to do */
  message: string;
  /** index of the point it is about, among the points given; null when it is about the test */
  point: number | null;
  direction: Direction | null;
  /** where the limit comes from */
  source: string;
}

export interface EnvelopeFit {
  baseline: BaselineSummary;
  /** one, or both with depressurised first */
  directions: DirectionFit[];
  /** over both directions, the mean of the two; `airChangesAt50` and those by area only where the size was given */
  figures: {
    flowAt50: EnvelopeFigure;
    flowAtReference: EnvelopeFigure;
    flowAt10: EnvelopeFigure;
    flowAt4: EnvelopeFigure;
    effectiveLeakageArea: EnvelopeFigure;
    equivalentLeakageArea: EnvelopeFigure;
    leakageAreaAt10: EnvelopeFigure;
    airChangesAt50?: EnvelopeFigure;
    perFloorArea?: EnvelopeFigure;
    perEnvelopeArea?: EnvelopeFigure;
  };
  findings: Finding[];
  /** false when a finding is `invalid` */
  valid: boolean;
  steps: WorkingLine[];
}
