import { fitLine, fitPowerLaw, type LineFit, powerLawFlow, studentFactor } from '@countercheck/measurement';
import { figures } from '../run/call.ts';
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
const line: Driver = ({ x, y }) => {
  const [xs, ys] = [numbers(x), numbers(y)];
  const fit = fitLine(xs.map((each, i) => ({ x: each, y: ys[i] ?? NaN })));
  return fit.ok ? spread(fit.value) : figures(fit);
};

/** A power law through pressures and flows, with the flow and its interval at one pressure when `at` is given. */
const powerLaw: Driver = ({ pressure, flow, at }) => {
  const [pressures, flows] = [numbers(pressure), numbers(flow)];
  const fit = fitPowerLaw(pressures.map((each, i) => ({ pressure: each, flow: flows[i] ?? NaN })));
  if (!fit.ok) return figures(fit);
  const { coefficient, exponent, rSquared, line: own } = fit.value;
  const t = studentFactor(own.points - 2);
  const exponentHalfWidth = own.slopeError === null ? NaN : t * own.slopeError;
  return {
    exponentHalfWidth,
    exponentLow: exponent - exponentHalfWidth,
    exponentHigh: exponent + exponentHalfWidth,
    logCoefficientHalfWidth: own.interceptError === null ? null : t * own.interceptError,
    coefficient,
    exponent,
    rSquared,
    exponentError: own.slopeError,
    coefficientError: own.interceptError === null ? null : own.interceptError * coefficient,
    logCoefficient: own.intercept,
    logCoefficientError: own.interceptError,
    ...(typeof at === 'number' ? { flow: powerLawFlow(coefficient, exponent, at) } : {}),
  };
};

export const fits = { line, powerLaw };
