import type { RandomStream } from './random.ts';

export type Distribution = 'normal' | 'rectangular' | 'triangular' | 'arcsine' | 'student-t';

/**
 * Standard uncertainty of a quantity known only to lie within ± a half-width: rectangular a / √3, triangular
 * a / √6, arcsine (a quantity that swings) a / √2. In the unit of the half-width; NaN when that is negative or
 * not finite. Never throws. Source: JCGM 100, 4.3.7 and 4.3.9 (from memory); EURACHEM/CITAC A1 and GUM H.1 use
 * all three (seen, docs/sources.md, Measurement 15).
 */
export function fromHalfWidth(
  halfWidth: number,
  distribution: 'rectangular' | 'triangular' | 'arcsine',
): number {
  if (!(halfWidth >= 0 && halfWidth < Infinity)) return NaN;
  return halfWidth / Math.sqrt({ rectangular: 3, triangular: 6, arcsine: 2 }[distribution]);
}

/**
 * A random deviation with mean 0 and standard deviation 1 from a distribution; `student-t` has scale 1, so that
 * its spread is the larger the fewer the degrees of freedom. Never throws. Source: JCGM 101:2008, 6.4 (from
 * memory); t by Bailey's polar method (from memory), its quantiles are tested.
 */
export function deviate(distribution: Distribution, stream: RandomStream, df: number): number {
  switch (distribution) {
    case 'rectangular':
      return Math.sqrt(3) * (2 * stream.uniform() - 1);
    case 'triangular':
      return Math.sqrt(6) * (stream.uniform() + stream.uniform() - 1);
    case 'arcsine':
      return Math.sqrt(2) * Math.cos(Math.PI * stream.uniform());
    case 'student-t':
      if (df === Infinity) return stream.normal();
      return Math.sqrt(df * (stream.uniform() ** (-2 / df) - 1)) * Math.cos(2 * Math.PI * stream.uniform());
    default:
      return stream.normal();
  }
}
