import { fastFitAt, fastFitSize, fitPowerLawFast } from '../fit/power-law-fast.ts';
import { type Checked, computed, problem } from '../outcome.ts';
import type { InducedPoint } from './directions.ts';
import type { Direction, DirectionFit, FittedPoint, Weighting } from './types.ts';

/** Ratio of highest to lowest pressure, and exponent, beyond which no line is drawn: common practice, no published source. */
const leastSpan = 1.05;
const largestExponent = 5;

/**
 * The power law of one direction, with covariance, intervals and residuals; flows as read, without corrections.
 * Residuals that are nothing but rounding count as zero.
 * Problems: `no-uncertainty` (weighting by uncertainties that were not given), `same-pressure`, `no-power-law` (an
 * exponent beyond ±5). Never throws.
 * Source: as `fitPowerLawFast`; residuals and leverage by textbook formulas.
 */
export function fitDirection(
  direction: Direction,
  points: readonly InducedPoint[],
  weighting: Weighting,
): Checked<DirectionFit> {
  const pressures = points.map(({ pressure }) => pressure);
  const flows = points.map(({ reading }) => reading.flow);
  const into = new Float64Array(fastFitSize);
  const run = (weights: number[] | null) =>
    fitPowerLawFast(pressures, flows, points.length, into, 50, weights);
  let fitted = run(null);
  let weights = points.map(() => 1);
  if (fitted && weighting === 'flow-squared') {
    weights = levelled(flows.map((flow) => flow ** 2));
    fitted = run(weights);
  }
  // The weights rest on the exponent, and the exponent a little on the weights: it settles in a few rounds.
  for (let round = 0; fitted && weighting === 'uncertainty' && round < 4; round++) {
    const variances = points.map(({ reading, pressure }) =>
      relativeVariance(reading, pressure, into[fastFitAt.exponent]!),
    );
    if (variances.some((variance) => !(variance > 0))) {
      const message =
        'A point has no uncertainty of pressure or flow; weighting by uncertainty needs one each.';
      return problem('points', 'no-uncertainty', message);
    }
    weights = levelled(variances.map((variance) => 1 / variance));
    fitted = run(weights);
  }
  if (!fitted || Math.max(...pressures) < leastSpan * Math.min(...pressures)) {
    const message = `The points that ${direction} the house hardly differ in pressure. Spread them from about 10 to 60 Pa.`;
    return problem('points', 'same-pressure', message);
  }
  if (!(Math.abs(into[fastFitAt.exponent]!) <= largestExponent)) {
    const message = `The flows change so fast with pressure (exponent ${into[fastFitAt.exponent]!.toPrecision(3)}) that they are not leakage. Check pressures and flows.`;
    return problem('points', 'no-power-law', message);
  }
  return computed(described(direction, points, into, weights));
}

function relativeVariance(reading: InducedPoint['reading'], pressure: number, exponent: number): number {
  const { flow, flowUncertainty = 0, pressureUncertainty = 0 } = reading;
  return (flowUncertainty / flow) ** 2 + ((exponent * pressureUncertainty) / pressure) ** 2;
}

// Weights with a mean of 1 leave the deviation of the residuals comparable with that of an ordinary fit.
function levelled(weights: number[]): number[] {
  const mean = weights.reduce((sum, weight) => sum + weight, 0) / weights.length;
  return weights.map((weight) => weight / mean);
}

function described(
  direction: Direction,
  points: readonly InducedPoint[],
  into: Float64Array,
  weights: number[],
): DirectionFit {
  const of = (name: keyof typeof fastFitAt) => into[fastFitAt[name]]!;
  const pressures = points.map(({ pressure }) => pressure);
  return {
    direction,
    points: points.map((point, i) => fittedPoint(point, weights[i]!, points.length - 2, of)),
    exponent: of('exponent'),
    exponentUncertainty: of('exponentError'),
    exponentLow: of('exponentLow'),
    exponentHigh: of('exponentHigh'),
    coefficient: of('coefficient'),
    coefficientLow: of('coefficientLow'),
    coefficientHigh: of('coefficientHigh'),
    coefficientAsRead: of('coefficient'),
    logCoefficientUncertainty: of('logCoefficientError'),
    covariance: {
      exponent: of('exponentError') ** 2,
      logCoefficient: of('logCoefficientError') ** 2,
      both: of('covariance'),
    },
    rSquared: of('rSquared'),
    residualDeviation: of('residualDeviation'),
    degreesOfFreedom: points.length - 2,
    studentFactor: of('studentFactor'),
    lowestPressure: Math.min(...pressures),
    highestPressure: Math.max(...pressures),
    meanLogPressure: of('meanLogPressure'),
    weight: of('weight'),
    spread: of('spread'),
  };
}

function fittedPoint(
  { reading, label, index, pressure }: InducedPoint,
  weight: number,
  free: number,
  of: (name: keyof typeof fastFitAt) => number,
): FittedPoint {
  const x = Math.log(pressure);
  const fitted = Math.exp(of('logCoefficient') + of('exponent') * x);
  const residual = Math.log(reading.flow / fitted);
  const leverage = weight * (1 / of('weight') + (x - of('meanLogPressure')) ** 2 / of('spread'));
  const deviation = of('residualDeviation') * Math.sqrt(Math.max(0, 1 - leverage) / weight);
  const standardized = deviation > 1e-12 ? residual / deviation : 0;
  const rest = Math.max(0, free - standardized ** 2);
  return {
    label,
    index,
    pressure,
    flow: reading.flow,
    fitted,
    residual,
    standardized,
    studentized: free > 1 && standardized !== 0 ? standardized * Math.sqrt((free - 1) / rest) : 0,
    leverage,
    weight,
  };
}
