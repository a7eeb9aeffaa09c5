import normalCdf from '@stdlib/stats-base-dists-normal-cdf';
import { leaningsOf, type Off } from '../comparison/leanings.ts';
import {
  closeness,
  groupByItem,
  spreadsByItem as spreadsOf,
  type Peers,
  type Scaled,
} from '../comparison/scales.ts';
import type { Figure } from '../figures.ts';
import { binomialAtLeast, chisquareBelow } from '../statistics/tails.ts';
import { mostHouses, tooLittle, type Outcome } from './finding.ts';

/** Numbers needed before the test says anything; common practice, no published source. */
const least = 20;
/** The null hypothesis: at least this share of the spread that other raters' readings show. A mark of our own. */
const shareOfPeers = 0.6;
/** … and of the two instruments' combined standard uncertainty, however little the others' readings spread. */
const shareOfInstruments = 0.4;

/** A reading counts as close within half of the least spread; 38 % of honest ones are, 2Φ(½) − 1. */
const close = 0.5;
const closeChance = 0.3829249225480262;

/** How far readings usually lie from what an installer reports of an item, beyond what is usual with all. */
type Leaning = (item: string, installerId: string | null) => number;

/** Readings beside reported figures, over all raters: what is usual. They are added rater by rater. */
export interface Usually {
  leaning: Leaning;
  /** robust spread of each item, by rater, less the installers' leanings */
  spreads: Map<string, Map<string, number>>;
}

/** The newest of so many readings of a rater say what is usual; more would only take longer. */
const mostOfARater = 4000;

export function beginUsually() {
  const byRater = new Map<string, (Off & { item: string })[]>();
  return {
    add(raterId: string, figures: readonly Figure[]): void {
      const rows = differences(figures).slice(-mostOfARater);
      byRater.set(
        raterId,
        rows.map(({ item, value, figure: { installerId } }) => ({ item, installerId, off: value })),
      );
    },
    usually(): Usually {
      const items = [...new Set([...byRater.values()].flatMap((rows) => rows.map(({ item }) => item)))];
      const ofItem = (rows: readonly (Off & { item: string })[], item: string) =>
        rows.filter((row) => row.item === item);
      const leanings = new Map(
        items.map((item) => [
          item,
          leaningsOf(
            [...byRater.values()].map((rows) => ofItem(rows, item)).filter(({ length }) => length > 0),
          ),
        ]),
      );
      const leaning: Leaning = (item, installerId) => leanings.get(item)?.get(installerId ?? '') ?? 0;
      const spreads = new Map(
        [...byRater].map(([raterId, rows]) => [
          raterId,
          spreadsOf(
            rows.map(({ item, installerId, off }) => ({ item, value: off - leaning(item, installerId) })),
          ),
        ]),
      );
      return { leaning, spreads };
    },
  };
}

/** ln(reading ÷ reported) of every reading beside which the installer reported a figure. */
export function differences(figures: readonly Figure[]): Scaled[] {
  return figures.flatMap((figure) => {
    const { value, reported, item } = figure;
    if (value === null || reported === null || !(value / reported > 0)) return [];
    return [{ figure, item, value: Math.log(value / reported) }];
  });
}

/**
 * How far readings of an item usually spread at the installers that this rater comes to: as far as the others' do less
 * what each installer's figures are off by, and as far as that differs among his own. Who comes to one installer only
 * has none of the second; who copies is held against all of it.
 */
function usualSpreads(values: readonly Scaled[], peers: Peers, leaning: Leaning): Map<string, number> {
  return new Map(
    [...groupByItem(values)].flatMap(([item, group]): [string, number][] => {
      const within = peers.spreadOf(item);
      if (within === null) return [];
      const leanings = group.map(({ figure: { installerId } }) => leaning(item, installerId));
      const mean = leanings.reduce((sum, each) => sum + each, 0) / leanings.length;
      const among = leanings.reduce((sum, each) => sum + (each - mean) ** 2, 0) / leanings.length;
      return [[item, Math.sqrt(within ** 2 + among)]];
    }),
  );
}

/** Two instruments of the stated accuracy, one the installer's: relative standard uncertainty of their difference. */
function twoInstruments(group: readonly Scaled[]): number {
  const known = group.flatMap(({ figure: { value, uncertainty } }) =>
    value && uncertainty !== null ? [Math.abs(uncertainty / value)] : [],
  );
  if (known.length === 0) return 0;
  return Math.SQRT2 * (known.reduce((sum, each) => sum + each, 0) / known.length);
}

const reach = 6;

/** How many deviations lie in each strip of 1 %, beside how many would with the spread of the other raters. */
function histogram(
  deviations: readonly { item: string; deviation: number }[],
  spreadOf: (item: string) => number | null,
): [string, number, number | null][] {
  return Array.from({ length: 2 * reach }, (_, i) => {
    const [from, to] = [(i - reach) / 100, (i - reach + 1) / 100];
    const found = deviations.filter(({ deviation }) => deviation >= from && deviation < to).length;
    const others = deviations.reduce((sum, { item }) => {
      const spread = spreadOf(item);
      return spread ? sum + normalCdf(to / spread, 0, 1) - normalCdf(from / spread, 0, 1) : sum;
    }, 0);
    return [`${i - reach} to ${i - reach + 1}`, found, others > 0 ? Number(others.toFixed(1)) : null];
  });
}

/**
 * Do the readings agree with the installer's figures better than two instruments can?
 *
 * Null hypothesis: within each item, ln(reading ÷ reported) spreads at least 0.6 times as much as in the readings
 * of the other raters (the median of their robust spreads), and that usual spread is taken as no less than 0.4
 * times the combined standard uncertainty of two instruments of the stated accuracy. The rater's own median is
 * taken out first: an instrument that reads high by a constant share is no sign of anything. What the installers'
 * figures are off by for good widens what is usual only as far as he comes to several of them, or whoever comes to one
 * would seem to agree too well.
 * Two statistics, since some raters copy everywhere and some only where they are in a hurry: the sum of squared
 * deviations in units of that least spread, each capped at three units, and how many deviate by less than half a
 * unit. p-value: twice the smaller (Bonferroni) of the lower tail of chi-square with (numbers − items) degrees of
 * freedom and the upper tail of the binomial distribution with chance 2Φ(½) − 1, that of a normal deviation. Capping
 * and the two shares make both larger than they are for honest readings; how often they are wrong is measured by the
 * simulator. Source: a chi-square test of a variance and a sign-like count (textbook, from memory); shares, cap and
 * half are marks of our own.
 * Fewer than 20 comparisons, or neither peers nor accuracy known: no p-value. Never throws.
 */
export function agreement(figures: readonly Figure[], peers: Peers, leaning: Leaning): Outcome {
  const values = differences(figures);
  const usual = usualSpreads(values, peers, leaning);
  const unit = (item: string, group: readonly Scaled[]) =>
    shareOfPeers * Math.max(usual.get(item) ?? 0, shareOfInstruments * twoInstruments(group));
  const { sum, freedom, deviations } = closeness(values, unit);
  if (freedom < least) return tooLittle('agreement', values.length);
  const nearby = deviations.filter(({ inUnits }) => inUnits < close).length;
  const near = values
    .map(({ figure, value }) => ({ figure, off: Math.abs(Math.expm1(value)) }))
    .sort((a, b) => a.off - b.off);
  const within = near.filter(({ off }) => off <= 0.01).length;
  return {
    signal: 'agreement',
    looked: deviations.length,
    p: Math.min(
      1,
      2 * Math.min(chisquareBelow(sum, freedom), binomialAtLeast(nearby, deviations.length, closeChance)),
    ),
    sentence: `${within} of ${values.length} readings lie within 1 % of what the installer reported; two instruments seldom agree so well.`,
    houseIds: [...new Set(near.map(({ figure }) => figure.houseId))].slice(0, mostHouses),
    evidence: {
      kind: 'bars',
      xLabel: 'Difference from the own median, %',
      yLabel: 'Readings',
      columns: ['Difference from the own median, %', 'Found', 'Other raters, as many readings'],
      rows: histogram(deviations, (item) => usual.get(item) ?? null),
    },
  };
}
