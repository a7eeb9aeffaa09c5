import chiSquareCdf from '@stdlib/stats-base-dists-chisquare-cdf';
import { type Checked, computed, problem } from '../outcome.ts';

/** A reading with its uncertainty. */
export interface Reading {
  value: number;
  /** standard uncertainty, in the unit of the value, above zero */
  standardUncertainty: number;
}

/** Two readings of the same thing, in one unit, e.g. the rater's and the installer's. */
export interface ReadingPair {
  first: Reading;
  second: Reading;
}

export interface PairComparison {
  /** second − first */
  difference: number;
  /** of the difference */
  standardUncertainty: number;
  expandedUncertainty: number;
  /** En: difference over its expanded uncertainty (k = 2); within ±1 the readings agree */
  normalisedError: number;
  verdict: 'agrees' | 'differs';
}

/**
 * Compares two independent readings of the same thing: En = (second − first) / √(U₁² + U₂²) with U = 2 · u; they
 * agree when |En| ≤ 1. Dimensionless but for difference and uncertainties.
 * Problems: `not-a-number`, `bad-uncertainty` (not above zero: what is exact cannot be weighed). Never throws.
 * Source: normalised error of ISO/IEC 17043 (from memory).
 */
export function compareReadings(pair: ReadingPair): Checked<PairComparison> {
  const { first, second } = pair;
  if (!Number.isFinite(first.value) || !Number.isFinite(second.value))
    return problem('value', 'not-a-number', 'A reading is not a number.');
  const both = [first.standardUncertainty, second.standardUncertainty];
  if (!both.every((u) => u > 0 && u < Infinity))
    return problem('standardUncertainty', 'bad-uncertainty', 'Each reading needs an uncertainty above zero.');
  const standardUncertainty = Math.hypot(...both);
  const difference = second.value - first.value;
  const normalisedError = difference / (2 * standardUncertainty);
  return computed({
    difference,
    standardUncertainty,
    expandedUncertainty: 2 * standardUncertainty,
    normalisedError,
    verdict: Math.abs(normalisedError) <= 1 ? 'agrees' : 'differs',
  });
}

export interface SetComparison {
  pairs: PairComparison[];
  /** Σ (difference / u)², expected to be about the number of pairs */
  chiSquare: number;
  /** chance of a sum as small or smaller when both measured independently */
  chanceAsSmall: number;
  /** chance of a sum as large or larger */
  chanceAsLarge: number;
  verdict: 'agrees' | 'differs' | 'agrees-suspiciously-well';
  /** for the page: what the verdict rests on and what to do */
  words: string;
}

/** Chances beyond which a set differs, or agrees too well; fewest pairs that can agree too well. */
export const comparisonLimits = { differs: 0.05, suspicious: 0.01, fewestPairs: 5 } as const;

/**
 * Compares many pairs of readings, e.g. everything one installer reported on the houses of a month: χ² = Σ d² / u²
 * has as many degrees of freedom as there are pairs. A sum so large that chance gives it in less than 5 of 100 sets
 * differs. A sum so small that chance gives it in less than 1 of 100 agrees suspiciously well: two people who
 * measure do not hit the same figure again and again, one who copies does. That needs five pairs at least, and
 * uncertainties that hold the step of the display, or figures rounded alike look copied.
 * It accuses nobody: overstated uncertainties look the same.
 * Problems: `no-pairs`, and those of `compareReadings` with the pair's index in the path. Never throws.
 * Source: chi-square test of textbooks, tail by an independent library (@stdlib); the limits are common practice, no
 * published source.
 */
export function compareSets(pairs: readonly ReadingPair[]): Checked<SetComparison> {
  if (pairs.length === 0) return problem('pairs', 'no-pairs', 'There is nothing to compare.');
  const compared: PairComparison[] = [];
  for (const [i, pair] of pairs.entries()) {
    const found = compareReadings(pair);
    if (!found.ok)
      return problem(`pairs.${i}.${found.problem.path}`, found.problem.code, found.problem.message);
    compared.push(found.value);
  }
  const chiSquare = compared.reduce((sum, { normalisedError }) => sum + (2 * normalisedError) ** 2, 0);
  const chanceAsSmall = chiSquareCdf(chiSquare, pairs.length);
  const chanceAsLarge = 1 - chanceAsSmall;
  const verdict = verdictOf(pairs.length, chanceAsSmall, chanceAsLarge);
  return computed({
    pairs: compared,
    chiSquare,
    chanceAsSmall,
    chanceAsLarge,
    verdict,
    words: wordsOf(verdict, pairs.length, chanceAsSmall, chanceAsLarge),
  });
}

function verdictOf(count: number, chanceAsSmall: number, chanceAsLarge: number): SetComparison['verdict'] {
  if (chanceAsLarge < comparisonLimits.differs) return 'differs';
  const enough = count >= comparisonLimits.fewestPairs;
  return enough && chanceAsSmall < comparisonLimits.suspicious ? 'agrees-suspiciously-well' : 'agrees';
}

function wordsOf(verdict: SetComparison['verdict'], count: number, small: number, large: number): string {
  const times = count === 1 ? '1 pair' : `${count} pairs`;
  if (verdict === 'differs')
    return `The ${times} differ more than their uncertainties explain (chance ${share(large)}). Look at method and instruments.`;
  if (verdict === 'agrees') return `The ${times} agree within their uncertainties.`;
  return `The ${times} agree suspiciously well: independent readings come this close in ${share(small)} of sets. Ask how the figures were taken.`;
}

function share(chance: number): string {
  return chance < 0.0001 ? 'less than 0.01 %' : `${(chance * 100).toFixed(2)} %`;
}
