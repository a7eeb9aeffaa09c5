import { elsewhere, type Elsewhere } from './comparison/elsewhere.ts';
import { nearDuplicates } from './comparison/hashes.ts';
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

/** A look at many raters, of whom only one at a time is at hand. */
export interface Look {
  /** First, of every rater: what is usual is made of it, and nothing of a single reading is kept. */
  read(year: Pick<RaterYear, 'raterId' | 'figures'>): void;
  /** Then, of every rater: every signal. `alike` says where the picture of a photo stands as well. */
  judge(year: RaterYear, alike: ReadonlyMap<string, readonly Elsewhere[]>): (Outcome & { raterId: string })[];
}

/** Begins a look: every rater is read once and then judged. Pure; never throws. */
export function beginLook(): Look {
  const [steps, chances] = [stepsByField(), chancesOfMatch()];
  const byDifference = new Map<string, Map<string, number>>();
  const bySize = new Map<string, Map<string, number>>();
  const shares = new Map<string, number>();
  let usual: { steps: Map<string, number>; chances: Map<string, number> } | null = null;
  return {
    read(year) {
      const { raterId, figures } = year;
      usual = null;
      steps.add(figures);
      chances.add(figures);
      byDifference.set(raterId, spreadsByItem(differences(figures)));
      bySize.set(raterId, spreadsByItem(sizes(figures)));
      for (const [id, share] of sharesJustInside([year])) shares.set(id, share);
    },
    judge({ raterId, figures, stops, photos: pictures }, alike) {
      usual ??= { steps: steps.spreads(), chances: chances.chances() };
      return [
        agreement(figures, peersOf(raterId, byDifference)),
        lastDigits(figures, usual.steps),
        repeats(figures, usual.chances),
        bunching(figures, raterId, shares),
        spread(figures, peersOf(raterId, bySize)),
        pace(figures, stops),
        instrument(figures),
        photos(pictures, alike),
      ].map((outcome) => ({ ...outcome, raterId }));
    },
  };
}

/**
 * The outcomes of each rater of a look together. Tests with too little to go by are left out; the others are adjusted
 * together by Benjamini and Yekutieli's procedure, so that more raters and more signals do not bring more false
 * alarms. Pure; never throws.
 */
export function judgeTogether(byRater: readonly (Outcome & { raterId: string })[][]): Judged[] {
  const tested = byRater.flat().filter(({ p }) => p !== null);
  const adjusted = yekutieli(tested.map(({ p }) => p ?? 1));
  return tested.map((outcome, i) => ({ ...outcome, q: adjusted[i]! }));
}

/** Every signal over every rater of a period, when all of them are at hand. Pure; never throws. */
export function look(raters: readonly RaterYear[]): Judged[] {
  const begun = beginLook();
  for (const year of raters) begun.read(year);
  const photographed = raters.flatMap((year) => year.photos);
  const known = new Map(photographed.map((photo) => [photo.id, photo]));
  const alike = elsewhere(nearDuplicates(photographed), known);
  return judgeTogether(raters.map((year) => begun.judge(year, alike)));
}

/** What is told: the outcomes of a look that stand at the level, the most unusual first. */
export const findingsAt = (level: number, judged: readonly Judged[]): Judged[] =>
  judged.filter(({ q }) => q <= level).sort((a, b) => a.q - b.q);
