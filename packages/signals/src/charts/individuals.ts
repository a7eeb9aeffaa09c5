import { d2, d4 } from './constants.ts';

export interface IndividualsChart {
  mean: number;
  /** from the mean moving range, in the unit of the values */
  sigma: number;
  upper: number;
  lower: number;
  meanRange: number;
  upperRange: number;
  /** |value − value before|; null for the first */
  ranges: (number | null)[];
  /** places of values outside the limits, and of ranges above theirs */
  outside: number[];
  rangesOutside: number[];
}

/**
 * Chart of individual values and their moving ranges of two: limits at three standard deviations, the standard
 * deviation taken as the mean moving range ÷ d2. Values in any one unit, in the order in which they were taken.
 * Source: see `constants`; the layout is that of the NIST/SEMATECH e-Handbook, 6.3.2.2 (from memory).
 * Null with fewer than three values. Never throws.
 */
export function individualsChart(values: readonly number[]): IndividualsChart | null {
  if (values.length < 3) return null;
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const ranges = values.map((value, i) => (i === 0 ? null : Math.abs(value - values[i - 1]!)));
  const meanRange = ranges.reduce<number>((sum, range) => sum + (range ?? 0), 0) / (values.length - 1);
  const sigma = meanRange / d2;
  const [upper, lower] = [mean + 3 * sigma, mean - 3 * sigma];
  const upperRange = d4 * meanRange;
  const places = (outside: (place: number) => boolean) => [...values.keys()].filter(outside);
  return {
    ...{ mean, sigma, upper, lower, meanRange, upperRange, ranges },
    outside: places((i) => values[i]! > upper || values[i]! < lower),
    rangesOutside: places((i) => (ranges[i] ?? 0) > upperRange),
  };
}
