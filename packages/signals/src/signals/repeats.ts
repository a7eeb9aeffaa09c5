import type { Figure } from '../figures.ts';
import { atLeast } from '../statistics/counts.ts';
import { mostHouses, tooLittle, type Outcome } from './finding.ts';

const leastShared = 5;
/** Two houses of one plan agree more often than any two; the chance of a match is taken as at least so much. */
const leastChance = 0.05;
const factorForPlans = 2;

type Sheet = Map<string, number>;

/** The numbers of a house by field: what stood on the displays, each once. */
function sheets(figures: readonly Figure[]): Map<string, Sheet> {
  const houses = new Map<string, Sheet>();
  for (const { houseId, item, place, shown } of figures) {
    const sheet = houses.get(houseId) ?? new Map<string, number>();
    houses.set(houseId, sheet);
    shown.forEach(({ field, value, setPoint }, i) => {
      const key = `${item}/${place}/${i}/${field}`;
      if (!setPoint && !sheet.has(key)) sheet.set(key, value);
    });
  }
  return houses;
}

/**
 * How often the same number stands in the same field of two houses, over everybody's houses: Σ share². Readings are
 * added rater by rater.
 */
export function chancesOfMatch(): { add(figures: readonly Figure[]): void; chances(): Map<string, number> } {
  const counts = new Map<string, Map<number, number>>();
  return {
    add(figures) {
      for (const sheet of sheets(figures).values())
        for (const [field, value] of sheet) {
          const values = counts.get(field) ?? new Map<number, number>();
          counts.set(field, values);
          values.set(value, (values.get(value) ?? 0) + 1);
        }
    },
    chances: () =>
      new Map(
        [...counts].map(([field, values]) => {
          const n = [...values.values()].reduce((sum, count) => sum + count, 0);
          const pairs = [...values.values()].reduce((sum, count) => sum + count * (count - 1), 0);
          return [field, n < 2 ? 1 : pairs / (n * (n - 1))];
        }),
      ),
  };
}

interface Pair {
  houses: [string, string];
  same: number;
  shared: number;
  p: number;
}

/**
 * Do whole sets of readings come back in another house?
 *
 * Null hypothesis: the numbers in one field of two houses are the same as often as in any two houses of the company
 * (estimated over everybody's, doubled because houses of one plan are alike, and at least 5 %), fields independent.
 * Statistic: for each pair of the rater's houses the number of fields with the same number, of those both have.
 * p-value: exact Poisson binomial tail of the most unusual pair, times the number of pairs (Bonferroni).
 * Source: exact distribution by convolution, textbook, from memory; doubling and 5 % are marks of our own.
 * No two houses with five fields in common: no p-value. Never throws.
 */
export function repeats(figures: readonly Figure[], chances: ReadonlyMap<string, number>): Outcome {
  const houses = [...sheets(figures)];
  const found: Pair[] = [];
  let pairs = 0;
  houses.forEach(([a, one], i) => {
    for (const [b, other] of houses.slice(i + 1)) {
      let [same, shared] = [0, 0];
      for (const [field, value] of one) {
        const theirs = other.get(field);
        if (theirs === undefined) continue;
        shared += 1;
        if (theirs === value) same += 1;
      }
      if (shared < leastShared) continue;
      pairs += 1;
      if (same < 3) continue;
      const likely = [...one.keys()]
        .filter((field) => other.has(field))
        .map((field) => Math.min(0.5, Math.max(leastChance, factorForPlans * (chances.get(field) ?? 0))))
        .map((chance) => [1 - chance, chance]);
      found.push({ houses: [a, b], same, shared, p: atLeast(same, likely) });
    }
  });
  if (pairs === 0) return tooLittle('repeats', houses.length);
  found.sort((a, b) => a.p - b.p);
  const worst = found[0];
  const telling = found.filter(({ p }) => p * pairs < 0.05);
  return {
    signal: 'repeats',
    looked: pairs,
    p: Math.min(1, (worst?.p ?? 1) * pairs),
    sentence: worst
      ? `Two houses share ${worst.same} of ${worst.shared} displayed numbers${telling.length > 1 ? `, and ${telling.length - 1} more pairs are as alike` : ''}; different houses seldom do.`
      : 'No two houses share several of their displayed numbers.',
    houseIds: [...new Set(telling.flatMap((each) => each.houses))].slice(0, mostHouses),
    evidence: {
      kind: 'none',
      xLabel: '',
      yLabel: '',
      columns: ['House', 'Other house', 'Same numbers', 'Numbers in both'],
      rows: found.slice(0, 60).map(({ houses: [a, b], same, shared }) => [a, b, same, shared]),
    },
  };
}
