import {
  fastFitAt,
  fastFitSize,
  fitLine,
  fitPowerLaw,
  fitPowerLawFast,
  type LineFit,
  studentFactor,
} from '@countercheck/measurement';
import { figures } from '../run/figures.ts';
import type { Driver } from './index.ts';

/** Numbers of a check, flat or in rows for reading. */
function numbers(given: unknown): number[] {
  return Array.isArray(given) ? given.flat().map(Number) : [];
}

function spread(fit: LineFit): Record<string, unknown> {
  const { residualDeviation, points, rSquared, slope, slopeError, interceptError } = fit;
  const slopeHalfWidth = slopeError === null ? NaN : studentFactor(points - 2) * slopeError;
  return {
    ...fit,
    slopeHalfWidth,
    slopeLow: slope - slopeHalfWidth,
    slopeHigh: slope + slopeHalfWidth,
    correlation: Math.sign(slope) * Math.sqrt(rSquared),
    residualSquares: residualDeviation === null ? null : residualDeviation ** 2 * (points - 2),
    slopeVariance: slopeError === null ? null : slopeError ** 2,
    interceptVariance: interceptError === null ? null : interceptError ** 2,
  };
}

/** A straight line through x and y, with the value and its standard error at one x when `at` is given. */
const line: Driver = ({ x, y, at }) => {
  const [xs, ys] = [numbers(x), numbers(y)];
  const fit = fitLine(xs.map((each, i) => ({ x: each, y: ys[i] ?? NaN })));
  if (!fit.ok) return figures(fit);
  return { ...spread(fit.value), ...(typeof at === 'number' ? lineAt(xs, ys, at) : {}) };
};

/** The line's value and error: a line is a power law of exponentials, scaled so that these stay numbers. */
function lineAt(xs: number[], ys: number[], at: number): Record<string, unknown> {
  const [unitX, unitY] = [Math.max(...xs.map(Math.abs)), Math.max(...ys.map(Math.abs))];
  const found = fast(
    xs.map((each) => Math.exp(each / unitX)),
    ys.map((each) => Math.exp(each / unitY)),
    Math.exp(at / unitX),
  );
  const predictedError = unitY * found('logFlowError');
  const predicted = unitY * Math.log(found('flow'));
  // The power law's ln C and exponent are the line's intercept and slope in these units.
  const covariance = (found('covariance') * unitY ** 2) / unitX;
  return { predicted, predictedError, predictedVariance: predictedError ** 2, covariance };
}

function fast(pressures: number[], flows: number[], reference: number) {
  const into = new Float64Array(fastFitSize);
  const fitted = fitPowerLawFast(pressures, flows, pressures.length, into, reference);
  return (key: keyof typeof fastFitAt): number => (fitted ? (into[fastFitAt[key]] ?? NaN) : NaN);
}

/** A power law through pressures and flows, with its intervals and the flow at one pressure, 50 Pa unless `at`. */
const powerLaw: Driver = ({ pressure, flow, at }) => {
  const [pressures, flows] = [numbers(pressure), numbers(flow)];
  const fit = fitPowerLaw(pressures.map((each, i) => ({ pressure: each, flow: flows[i] ?? NaN })));
  if (!fit.ok) return figures(fit);
  const { coefficient, exponent, rSquared, line: own } = fit.value;
  const t = studentFactor(own.points - 2);
  const found = fast(pressures, flows, typeof at === 'number' ? at : 50);
  return {
    coefficient,
    exponent,
    rSquared,
    exponentError: own.slopeError,
    exponentHalfWidth: own.slopeError === null ? null : t * own.slopeError,
    exponentLow: found('exponentLow'),
    exponentHigh: found('exponentHigh'),
    coefficientError: own.interceptError === null ? null : own.interceptError * coefficient,
    logCoefficient: own.intercept,
    logCoefficientError: own.interceptError,
    logCoefficientHalfWidth: own.interceptError === null ? null : t * own.interceptError,
    flow: found('flow'),
    flowLow: found('flowLow'),
    flowHigh: found('flowHigh'),
    logFlowError: found('logFlowError'),
  };
};

export const fits = { line, powerLaw };
