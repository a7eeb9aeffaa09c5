import { type Checked, computed, problem } from '../outcome.ts';

export interface LinePoint {
  x: number;
  y: number;
}

export interface LineFit {
  slope: number;
  intercept: number;
  /** coefficient of determination; 1 when every point has the same y (the line then fits exactly) */
  rSquared: number;
  /** standard deviation of the residuals with N − 2 degrees of freedom; null for two points */
  residualDeviation: number | null;
  /** standard errors of slope and intercept; null for two points */
  slopeError: number | null;
  interceptError: number | null;
  /** of slope and intercept, −x̄ · s² / Sxx; null for two points */
  covariance: number | null;
  points: number;
}

/**
 * Ordinary least squares of y on x, about the means so that large x do not lose digits.
 * slope = Sxy / Sxx, intercept = ȳ − slope · x̄, s² = SSR / (N − 2), se(slope) = s / √Sxx,
 * se(intercept) = s · √(1/N + x̄² / Sxx). Units: those of x and y.
 * Problems: `too-few-points` (below 2), `not-a-number`, `same-abscissa` (all x the same). Never throws.
 * Source: textbook formula; checked against NIST StRD Norris (certified) and GUM H.3 (docs/sources.md,
 * Measurement 2).
 */
export function fitLine(points: readonly LinePoint[]): Checked<LineFit> {
  const count = points.length;
  if (count < 2)
    return problem('rows', 'too-few-points', `There are ${count} points; a line needs at least 2.`);
  if (points.some(({ x, y }) => !Number.isFinite(x) || !Number.isFinite(y))) {
    return problem('rows', 'not-a-number', 'A point is not a number.');
  }
  if (points.every(({ x }) => x === points[0]?.x)) {
    return problem(
      'rows',
      'same-abscissa',
      'All points are at the same pressure; take them at different ones.',
    );
  }
  const meanX = sum(points, ({ x }) => x) / count;
  const meanY = sum(points, ({ y }) => y) / count;
  const sxx = sum(points, ({ x }) => (x - meanX) ** 2);
  const syy = sum(points, ({ y }) => (y - meanY) ** 2);
  const sxy = sum(points, ({ x, y }) => (x - meanX) * (y - meanY));
  const slope = sxy / sxx;
  const intercept = meanY - slope * meanX;
  const ssr = sum(points, ({ x, y }) => (y - meanY - slope * (x - meanX)) ** 2);
  const deviation = count > 2 ? Math.sqrt(ssr / (count - 2)) : null;
  return computed({
    slope,
    intercept,
    rSquared: syy === 0 ? 1 : 1 - ssr / syy,
    residualDeviation: deviation,
    slopeError: deviation === null ? null : deviation / Math.sqrt(sxx),
    interceptError: deviation === null ? null : deviation * Math.sqrt(1 / count + meanX ** 2 / sxx),
    covariance: deviation === null ? null : (-meanX * deviation ** 2) / sxx,
    points: count,
  });
}

function sum(points: readonly LinePoint[], of: (point: LinePoint) => number): number {
  return points.reduce((total, point) => total + of(point), 0);
}
