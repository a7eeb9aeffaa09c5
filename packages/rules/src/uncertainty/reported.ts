import { convert, quantities, type QuantityKind } from '@countercheck/measurement';
import type { Source } from '../types.ts';
import { spreadOf, type Spread } from './spread.ts';

/** Accuracy that is assumed of the instrument behind an installer's figure: the larger of share and absolute. */
export interface AssumedAccuracy {
  /** key of the reported figure, or null for every other figure of this quantity */
  figure: string | null;
  quantity: QuantityKind;
  /** share of the figure */
  percent: number;
  /** in the quantity's stored unit */
  absolute: number;
  source: Source;
}

const assumed = (note: string): Source => ({
  kind: 'common-practice',
  citation: `assumed of the installer's instrument; common practice, no published source (${note})`,
  confirmed: false,
});

/**
 * An installer signs a figure, not an instrument, so its accuracy is assumed. A company that knows better
 * changes it here; a narrower figure makes disagreement show sooner.
 */
export const assumedAccuracies: readonly AssumedAccuracy[] = [
  {
    figure: null,
    quantity: 'staticPressure',
    percent: 1,
    absolute: convert(0.25, 'Pa', quantities.staticPressure.unit),
    source: assumed('"1 % or 0.25 Pa" was seen as the accuracy of manometers'),
  },
  {
    figure: 'ductLeakageAt25',
    quantity: 'airflow',
    percent: 7,
    absolute: 0,
    source: assumed('7 % is remembered from ISO 9972 for flow devices'),
  },
  {
    figure: null,
    quantity: 'airflow',
    percent: 10,
    absolute: 0,
    source: assumed('10 % was seen for flow hoods in California RA3.7'),
  },
  { figure: null, quantity: 'power', percent: 5, absolute: 0, source: assumed('plug-in and clamp meters') },
];

/** The accuracy assumed behind one figure; null for a quantity without any. */
function accuracyOf(figure: string, quantity: QuantityKind): AssumedAccuracy | null {
  const fitting = assumedAccuracies.filter((each) => each.quantity === quantity);
  return (
    fitting.find((each) => each.figure === figure) ?? fitting.find((each) => each.figure === null) ?? null
  );
}

/**
 * Standard and expanded uncertainty of an installer's figure, in its stored unit: the assumed accuracy as the
 * half-width of a rectangular distribution, u = max(|figure| · percent / 100, absolute) / √3 (JCGM 100, 4.3.7,
 * from memory), U = 2u. Gives the function for one figure; it gives null for a quantity without an assumed
 * accuracy or a figure that is not finite. Never throws.
 */
export function reportedSpread(figure: string, quantity: QuantityKind): (value: number) => Spread | null {
  const found = accuracyOf(figure, quantity);
  if (found === null) return () => null;
  const [share, absolute] = [found.percent / 100, found.absolute];
  return (value) =>
    Number.isFinite(value) ? spreadOf(Math.max(Math.abs(value) * share, absolute) / Math.sqrt(3)) : null;
}
