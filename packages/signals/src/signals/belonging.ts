import type { Held, Houses } from '../comparison/strange-houses.ts';
import { betaBinomial } from '../statistics/beta-binomial.ts';
import { atLeast } from '../statistics/counts.ts';
import { groupBy } from '../statistics/group-by.ts';
import { mostHouses, percent, tooLittle, type Outcome } from './finding.ts';

/** Houses mixed up, or equipment changed after the figures were signed: share of houses. A mark of our own. */
const slips = 0.02;
/** A rater's houses are strange up to so many times as often as the others' of the same installer. A mark of our own. */
const timesOthers = 2;
const mostChance = 0.9;
/** What is usual with all installers counts as so many houses of each. A mark of our own. */
const housesOfAll = 5;
/** An installer's figures are known when others have read so many of his houses. Common practice, no published source. */
const leastOfAnInstaller = 5;
const leastOwn = 10;
const leastOthers = 30;

const installerOf = ({ installerId }: Held) => installerId;
const countStrange = (houses: readonly Held[]) => houses.filter(({ strange }) => strange).length;

/**
 * Do whole houses read as if they were others?
 *
 * Of each house it is worked out how many times likelier its readings are in some other house than beside what was
 * reported for this one (`beginHouses`); when they are, it is strange. Null hypothesis: a house is strange by
 * a slip once in fifty, or, where that is more, twice as often as the other raters' houses of the same installer, for
 * an installer may have made up what he reported, and a new rater must not be blamed for that. How often that is, is
 * known as far as houses of others go: a beta distribution around their share, drawn toward that of all installers by
 * five houses. Statistic: the rater's strange houses. p-value: upper tail of the sum of beta-binomial numbers, one an
 * installer. Houses of installers of whom nobody else has read five are left out.
 * Source: beta-binomial distribution, textbook, from memory; fifty, twice and five are marks of our own.
 * Fewer than ten own houses or 30 of others: no p-value. Never throws.
 */
export function belonging(raterId: string, all: Houses): Outcome {
  const others = [...all].flatMap(([id, houses]) => (id === raterId ? [] : houses));
  const [byOwn, byOthers] = [groupBy(all.get(raterId) ?? [], installerOf), groupBy(others, installerOf)];
  const compared = [...byOwn].flatMap(([installerId, own]) => {
    const theirs = byOthers.get(installerId) ?? [];
    return theirs.length < leastOfAnInstaller ? [] : [{ own, theirs }];
  });
  const own = compared.flatMap((each) => each.own);
  if (own.length < leastOwn || others.length < leastOthers) return tooLittle('belonging', own.length);
  const usual = (countStrange(others) + 0.5) / (others.length + 1);
  const numbers = compared.map((each) => {
    const known = each.theirs.length + housesOfAll;
    const share = (countStrange(each.theirs) + housesOfAll * usual) / known;
    const chance = Math.min(mostChance, Math.max(slips, timesOthers * share));
    return betaBinomial(each.own.length, chance * known, (1 - chance) * known);
  });
  const strange = own.filter((each) => each.strange).sort((a, b) => b.weight - a.weight);
  const theirs = compared.flatMap((each) => each.theirs);
  return {
    signal: 'belonging',
    looked: own.length,
    p: atLeast(strange.length, numbers),
    sentence: `In ${strange.length} of ${own.length} houses the readings, taken together, are likelier numbers of some other house than of this one by what was reported for it; so are ${countStrange(theirs)} of ${theirs.length} that others read after the same installers.`,
    houseIds: strange.map(({ houseId }) => houseId).slice(0, mostHouses),
    evidence: {
      kind: 'none',
      xLabel: '',
      yLabel: '',
      columns: ['House', 'Readings compared', 'Half of them farther from what was reported than'],
      rows: strange
        .slice(0, mostHouses)
        .map(({ houseId, readings, apart }) => [houseId, readings, percent(Math.expm1(apart))]),
    },
  };
}
