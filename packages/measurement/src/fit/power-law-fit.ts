import { type Checked, computed, problem } from '../outcome.ts';
import { fitLine, type LineFit } from './line.ts';

export interface FlowPoint {
  /** Pa; the sign is dropped */
  pressure: number;
  /** cfm, or any other flow unit */
  flow: number;
}

export interface PowerLawFit {
  /** flow coefficient C, flow unit per Pa^n; in number the flow at 1 Pa */
  coefficient: number;
  /** pressure exponent n */
  exponent: number;
  /** of ln Q on ln dP */
  rSquared: number;
  /** the straight line itself, for standard errors and intervals */
  line: LineFit;
}

/**
 * Fits Q = C · dP^n to measured points: ordinary least squares of ln Q on ln |dP|, every point of equal weight.
 * Problems: `not-positive` (a pressure of zero or a flow of zero or less has no logarithm), and those of
 * `fitLine`. Never throws. Source: ASTM E779 and ISO 9972 as seen in an open textbook, whose data and results
 * are a test (docs/sources.md, Measurement 1).
 */
export function fitPowerLaw(points: readonly FlowPoint[]): Checked<PowerLawFit> {
  for (const [i, { pressure, flow }] of points.entries()) {
    if (Math.abs(pressure) > 0 && flow > 0) continue;
    return problem(
      `rows.${i}`,
      'not-positive',
      `Point ${i + 1} has no pressure or no flow; take it out or read again.`,
    );
  }
  const line = fitLine(
    points.map(({ pressure, flow }) => ({ x: Math.log(Math.abs(pressure)), y: Math.log(flow) })),
  );
  if (!line.ok) return line;
  const { slope, intercept, rSquared } = line.value;
  return computed({ coefficient: Math.exp(intercept), exponent: slope, rSquared, line: line.value });
}
