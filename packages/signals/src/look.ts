import { beginSorts, type Sorts } from './comparison/beside-limits.ts';
import { elsewhere, type Elsewhere } from './comparison/elsewhere.ts';
import { nearDuplicates } from './comparison/hashes.ts';
import { peersOf, spreadsByItem } from './comparison/scales.ts';
import { beginHouses, type Houses } from './comparison/strange-houses.ts';
import type { RaterYear } from './figures.ts';
import { agreement, beginUsually, type Usually } from './signals/agreement.ts';
import { belonging } from './signals/belonging.ts';
import { bunching, sharesJustInside } from './signals/bunching.ts';
import type { Outcome } from './signals/finding.ts';
import { instrument } from './signals/instrument.ts';
import { lastDigits, stepsByField } from './signals/last-digits.ts';
import { pace } from './signals/pace.ts';
import { photos } from './signals/photos.ts';
import { chancesOfMatch, repeats } from './signals/repeats.ts';
import { reportedSizes, sizes, spread } from './signals/spread.ts';
import { overFamilies } from './statistics/discoveries.ts';

/** An outcome among all of a look: what the level would have to be for it to be a finding. */
export interface Judged extends Outcome {
  raterId: string;
  /** p-value adjusted for every test of the look, 0 to 1 */
  q: number;
}

/** Raters told of in a year although they measure: at most one in twenty. The budget is a mark of our own. */
const alarmsPerRater = 1 / 20;
/** The share of false ones that is allowed among the findings of a look, at most. A mark of our own. */
const mostFalse = 0.05;

/**
 * The level of one look at so many raters, when a year has so many looks. When everybody measures, a look brings
 * about as many false findings as its level says: the year's budget in equal parts, and no more than 5 %.
 */
export const levelOf = (raters: number, looksAYear: number): number =>
  Math.min(mostFalse, (raters * alarmsPerRater) / Math.max(1, looksAYear));

/** A look at many raters, of whom only one at a time is at hand. */
export interface Look {
  /** First, of every rater: what is usual is made of it, and nothing of a single reading is kept. */
  read(year: Pick<RaterYear, 'raterId' | 'figures'>): void;
  /** Then, of every rater: every signal. `alike` says where the picture of a photo stands as well. */
  judge(year: RaterYear, alike: ReadonlyMap<string, readonly Elsewhere[]>): (Outcome & { raterId: string })[];
}

/** Begins a look: every rater is read once and then judged. Pure; never throws. */
export function beginLook(): Look {
  const [steps, chances, sorts, strange] = [stepsByField(), chancesOfMatch(), beginSorts(), beginHouses()];
  const usually = beginUsually();
  const bySize = new Map<string, Map<string, number>>();
  const byReported = new Map<string, Map<string, number>>();
  const shares = new Map<string, number>();
  let usual: {
    differences: Usually;
    steps: Map<string, number>;
    chances: Map<string, number>;
    sorts: Sorts;
    houses: Houses;
  } | null = null;
  return {
    read(year) {
      const { raterId, figures } = year;
      usual = null;
      steps.add(figures);
      chances.add(figures);
      sorts.add(year);
      strange.add(year);
      usually.add(raterId, figures);
      byReported.set(raterId, spreadsByItem(reportedSizes(figures)));
      bySize.set(raterId, spreadsByItem(sizes(figures)));
      for (const [id, share] of sharesJustInside([year])) shares.set(id, share);
    },
    judge({ raterId, figures, stops, photos: pictures }, alike) {
      usual ??= {
        differences: usually.usually(),
        steps: steps.spreads(),
        chances: chances.chances(),
        sorts: sorts.sorts(),
        houses: strange.houses(),
      };
      return [
        agreement(figures, peersOf(raterId, usual.differences.spreads), usual.differences.leaning),
        belonging(raterId, usual.houses),
        lastDigits(figures, usual.steps),
        repeats(figures, usual.chances),
        bunching(figures, raterId, shares, usual.sorts),
        spread(figures, peersOf(raterId, bySize), peersOf(raterId, byReported)),
        pace(figures, stops),
        instrument(figures),
        photos(pictures, alike),
      ].map((outcome) => ({ ...outcome, raterId }));
    },
  };
}

/**
 * The outcomes of each rater of a look together. Tests with too little to go by are left out; the others are adjusted
 * together, the signals of one rater as a family, so that more raters and more signals do not bring more false
 * alarms. Pure; never throws.
 */
export function judgeTogether(byRater: readonly (Outcome & { raterId: string })[][]): Judged[] {
  const tested = byRater.map((own) =>
    own.flatMap((outcome) => (outcome.p === null ? [] : [{ ...outcome, p: outcome.p }])),
  );
  const adjusted = overFamilies(tested.map((own) => own.map(({ p }) => p)));
  return tested.flatMap((own, i) => own.map((outcome, j) => ({ ...outcome, q: adjusted[i]![j]! })));
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
