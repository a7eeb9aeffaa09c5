import { studentQuantile } from '@countercheck/distributions';

/** Every result of this package states its expanded uncertainty at this level of confidence. */
export const coverageLevel = 0.95;

// The quantile takes a thousand times as long as a fit, and the same few degrees of freedom come again.
const kept = new Float64Array(256);

/**
 * Two-sided factor of Student's t: t(½ + level/2, df), dimensionless; the normal distribution's for infinite
 * degrees of freedom (1.96 at 95 %). NaN for degrees of freedom that are not above zero or a level outside 0
 * to 1. Never throws. Source: JCGM 100, G.3 (from memory); values checked with a table computed
 * independently.
 */
export function studentFactor(degreesOfFreedom: number, level = coverageLevel): number {
  if (!(degreesOfFreedom > 0) || !(level > 0 && level < 1)) return NaN;
  const upper = 0.5 + level / 2;
  if (level !== coverageLevel || degreesOfFreedom >= kept.length || !Number.isInteger(degreesOfFreedom))
    return studentQuantile(upper, degreesOfFreedom);
  const known = kept[degreesOfFreedom]!;
  if (known > 0) return known;
  return (kept[degreesOfFreedom] = studentQuantile(upper, degreesOfFreedom));
}

/**
 * The coverage factor k of an expanded uncertainty U = k · u at 95 %: 2, or Student's t where few degrees of freedom
 * make that larger (below about 60), with the degrees cut to whole numbers as the guide asks. Never below 2, so that
 * a result does not seem surer for being one of many. NaN for degrees of freedom that are not above zero. Never
 * throws. Source: JCGM 100, 6.3.3 and G.4.2 (from memory).
 */
export function coverageFactor(degreesOfFreedom = Infinity): number {
  const whole = degreesOfFreedom >= 1 ? Math.floor(degreesOfFreedom) : degreesOfFreedom;
  return Math.max(2, studentFactor(whole));
}

/** The uncertainty of a result as every result carries it; all null when it is not known. */
export interface StatedUncertainty {
  /** in the unit of the result */
  standardUncertainty: number | null;
  /** 95 %, in the unit of the result */
  expandedUncertainty: number | null;
  /** dimensionless */
  coverageFactor: number | null;
}

/**
 * States a standard uncertainty together with its expanded one, U = k · u at 95 % (`coverageFactor`).
 * @param standardUncertainty in the unit of the result; null, negative or not finite gives nulls throughout
 * Never throws.
 */
export function statedUncertainty(
  standardUncertainty: number | null,
  degreesOfFreedom = Infinity,
): StatedUncertainty {
  const k = coverageFactor(degreesOfFreedom);
  const u = standardUncertainty;
  if (u === null || !(u >= 0 && u < Infinity) || Number.isNaN(k))
    return { standardUncertainty: null, expandedUncertainty: null, coverageFactor: null };
  return { standardUncertainty: u, expandedUncertainty: k * u, coverageFactor: k };
}
