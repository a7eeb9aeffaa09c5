import { peersOf, spreadsByItem } from './comparison/scales.ts';
import type { RaterYear } from './figures.ts';
import { agreement, differences } from './signals/agreement.ts';
import { bunching, sharesJustInside } from './signals/bunching.ts';
import type { Outcome } from './signals/finding.ts';
import { instrument } from './signals/instrument.ts';
import { lastDigits, stepsByField } from './signals/last-digits.ts';
import { pace } from './signals/pace.ts';
import { photos } from './signals/photos.ts';
import { chancesOfMatch, repeats } from './signals/repeats.ts';
import { sizes, spread } from './signals/spread.ts';
import { yekutieli } from './statistics/discoveries.ts';

/** An outcome among all of a look: what the level would have to be for it to be a finding. */
export interface Judged extends Outcome {
  raterId: string;
  /** p-value adjusted for every test of the look, 0 to 1 */
  q: number;
}

/**
 * The share of false ones that is allowed among the findings of a year. When every rater is honest it is also the
 * chance that the year brings any finding at all, however many raters there are. A mark of our own.
 */
export const yearlyLevel = 0.05;

/** The level of one look, when a year has so many: the year's budget in equal parts. */
export const levelOf = (looksAYear: number): number => yearlyLevel / Math.max(1, looksAYear);

/**
 * Every signal over every rater of a period. Tests with too little to go by are left out; the others are adjusted
 * together by Benjamini and Yekutieli's procedure, so that more raters and more signals do not bring more false
 * alarms. Pure; never throws.
 */
export function look(raters: readonly RaterYear[]): Judged[] {
  const steps = stepsByField(raters.map(({ figures }) => figures));
  const chances = chancesOfMatch(raters.map(({ figures }) => figures));
  const byDifference = new Map(raters.map((r) => [r.raterId, spreadsByItem(differences(r.figures))]));
  const bySize = new Map(raters.map((r) => [r.raterId, spreadsByItem(sizes(r.figures))]));
  const shares = sharesJustInside(raters);
  const outcomes = raters.flatMap(({ raterId, figures, stops, photos: pictures }) =>
    [
      agreement(figures, peersOf(raterId, byDifference)),
      lastDigits(figures, steps),
      repeats(figures, chances),
      bunching(figures, raterId, shares),
      spread(figures, peersOf(raterId, bySize)),
      pace(figures, stops),
      instrument(figures),
      photos(pictures),
    ].map((outcome) => ({ ...outcome, raterId })),
  );
  const tested = outcomes.filter(({ p }) => p !== null);
  const adjusted = yekutieli(tested.map(({ p }) => p ?? 1));
  return tested.map((outcome, i) => ({ ...outcome, q: adjusted[i]! }));
}

/** What is told: the outcomes of a look that stand at the level, the most unusual first. */
export const findingsAt = (level: number, judged: readonly Judged[]): Judged[] =>
  judged.filter(({ q }) => q <= level).sort((a, b) => a.q - b.q);
