import { closeness, groupByItem, spreadsByItem, type Peers, type Scaled } from '../comparison/scales.ts';
import type { Figure } from '../figures.ts';
import { median, robustSpread } from '../statistics/robust.ts';
import { chisquareBelow } from '../statistics/tails.ts';
import { mostHouses, tooLittle, type Outcome } from './finding.ts';

const least = 20;
/** The null hypothesis: at least this share of the others' spread, as a rater may serve one builder. Our own mark. */
const shareOfPeers = 0.6;

const inPercent = (spread: number) => Number((spread * 100).toFixed(2));
const words = (item: string) => item.replaceAll('-', ' ');

/** Of houses of one plan the newest: they are alike, and many of them say no more than one. */
function oneOfAPlan(figures: readonly Figure[]): Figure[] {
  const newest = new Map<string, Figure>();
  for (const figure of figures) {
    const { item, place, plan, houseId } = figure;
    if (figure.value !== null && figure.value > 0)
      newest.set(`${item} ${place} ${plan === null ? `house ${houseId}` : `plan ${plan}`}`, figure);
  }
  return [...newest.values()];
}

/** ln(value) of results above zero, one of a plan; houses differ by factors. */
export const sizes = (figures: readonly Figure[]): Scaled[] =>
  oneOfAPlan(figures).map((figure) => ({ figure, item: figure.item, value: Math.log(figure.value!) }));

/** ln(reported) beside such a result: what the installers' figures say of how unlike the houses are. */
export const reportedSizes = (figures: readonly Figure[]): Scaled[] =>
  oneOfAPlan(figures).flatMap((figure) =>
    figure.reported !== null && figure.reported > 0
      ? [{ figure, item: figure.item, value: Math.log(figure.reported) }]
      : [],
  );

/**
 * How unlike a rater's houses are beside the others', by what was reported for them: the median over the items of his
 * spread in theirs, at most one. Houses that are alike have results that are.
 */
function unlikeness(figures: readonly Figure[], reported: Peers): number {
  const shares = [...spreadsByItem(reportedSizes(figures))].flatMap(([item, own]) => {
    const others = reported.spreadOf(item);
    return others ? [own / others] : [];
  });
  return shares.length === 0 ? 1 : Math.min(1, median(shares));
}

/**
 * Do the results of many houses lie closer together than houses do?
 *
 * Null hypothesis: within each item, ln(result) spreads at least 0.6 times as much as in the other raters' houses (the
 * median of their robust spreads), or, where the reported figures show that his houses are more alike than theirs, that
 * share of it. Of houses of one plan, and of what was read again in one house, the newest is taken, for they are not
 * independent. Statistic: as in `agreement`, squared deviations from the rater's own median in
 * units of that least spread, capped at three. p-value: lower tail of chi-square for each item by itself, since one
 * item may be written down without being measured; the smallest, times the number of items (Bonferroni).
 * Source: a chi-square test of a variance (textbook, from memory); the share is a mark of our own.
 * Fewer than 20 results of an item, or fewer than three other raters: no p-value. Never throws.
 */
export function spread(figures: readonly Figure[], peers: Peers, reported: Peers): Outcome {
  const share = shareOfPeers * unlikeness(figures, reported);
  const groups = [...groupByItem(sizes(figures))].flatMap(([item, group]) => {
    const others = peers.spreadOf(item);
    if (others === null || group.length < least) return [];
    const { sum, freedom, deviations } = closeness(group, () => share * others);
    if (freedom === 0) return [];
    const own = robustSpread(group.map(({ value }) => value));
    return [{ item, own, others, deviations, p: chisquareBelow(sum, freedom), looked: group.length }];
  });
  const looked = groups.reduce((sum, group) => sum + group.looked, 0);
  const worst = groups.reduce((a, b) => (b.p < a.p ? b : a), groups[0]!);
  if (!worst) return tooLittle('spread', looked);
  const nearest = [...worst.deviations].sort((a, b) => a.inUnits - b.inUnits);
  return {
    signal: 'spread',
    looked,
    p: Math.min(1, worst.p * groups.length),
    sentence: `${worst.looked} results of ${words(worst.item)} lie closer together than in different houses: ${Math.round((worst.own / worst.others) * 100)} % of the spread that other raters find.`,
    houseIds: [...new Set(nearest.map(({ figure }) => figure.houseId))].slice(0, mostHouses),
    evidence: {
      kind: 'bars',
      xLabel: 'Item',
      yLabel: 'Spread between houses, %',
      columns: ['Item', 'These readings, %', 'Other raters, %'],
      rows: groups.map(({ item, own, others }) => [words(item), inPercent(own), inPercent(others)]),
    },
  };
}
