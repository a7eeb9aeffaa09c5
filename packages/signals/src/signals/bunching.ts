import type { Sorts } from '../comparison/beside-limits.ts';
import type { Figure } from '../figures.ts';
import { median } from '../statistics/robust.ts';
import { binomialAtLeast } from '../statistics/tails.ts';
import { mostHouses, tooLittle, type Outcome } from './finding.ts';
import { narrowFailures } from './narrow-failures.ts';

/** Width of a strip beside the limit, as a share of it; a mark of our own. */
const strip = 0.04;
const least = 8;
const strips = 6;
/**
 * Share of the middle of three strips when a normal density has its peak there and a standard deviation of no more
 * than one strip: (2Φ(½) − 1) ÷ (2Φ(1½) − 1), computed.
 */
const peaked = 0.4419;
const leastOthers = 3;

/** How far inside its limit a result lies, as a share of the limit; negative outside. */
function inside({ value, limit }: Pick<Figure, 'value' | 'limit'>): number | null {
  if (value === null || !limit || !(limit.value > 0)) return null;
  return ((limit.inside === 'below' ? 1 : -1) * (limit.value - value)) / limit.value;
}

interface Placed {
  figure: Figure;
  /** number of the strip, 0 just inside the limit, −1 just outside */
  at: number;
}

function place(figures: readonly Figure[]): Placed[] {
  return figures.flatMap((figure) => {
    const share = inside(figure);
    return share === null ? [] : [{ figure, at: Math.floor(share / strip + 1e-9) }];
  });
}

function countNear(placed: readonly Placed[]) {
  const count = (at: number) => placed.filter((each) => each.at === at).length;
  const [outside, just, next] = [count(-1), count(0), count(1)];
  return { outside, just, next, total: outside + just + next };
}

/** Share of the strip just inside among the three, for each rater with enough in them. */
export function sharesJustInside(
  raters: readonly { raterId: string; figures: readonly Figure[] }[],
): Map<string, number> {
  return new Map(
    raters.flatMap(({ raterId, figures }) => {
      const { just, total } = countNear(place(figures));
      return total < least ? [] : [[raterId, just / total] as const];
    }),
  );
}

/**
 * Do results gather just inside a limit?
 *
 * Where enough others have measured the like, `narrowFailures` holds the results against theirs. Otherwise by the
 * shape alone. Null hypothesis: of three strips of 4 % of the limit, one outside and two inside, the middle one, just inside, holds
 * at most 44 % of the results, what a density with its peak there and a standard deviation of one strip gives; or,
 * where that is more, what the other raters' results show (median of their shares, of at least three), since an
 * installer may set a fan to just what is asked. Statistic: how many lie in the middle strip. p-value: upper tail of
 * the binomial distribution with the number in the three strips and that share. Readings that a correction replaced
 * are looked at too. All items together.
 * Source: a density test at a cut, as the one by McCrary (2008, from memory) in its simplest form, with counts
 * instead of a local fit; width and form are our own. Fewer than 8 in the strips: no p-value. Never throws.
 */
export function bunching(
  figures: readonly Figure[],
  raterId: string,
  shares: ReadonlyMap<string, number>,
  all: Sorts,
): Outcome {
  const compared = narrowFailures(figures, raterId, all);
  if (compared) return compared;
  const placed = place(figures);
  const count = (at: number) => placed.filter((each) => each.at === at).length;
  const { outside, just, next, total } = countNear(placed);
  if (total < least) return tooLittle('bunching', total);
  const others = [...shares].filter(([id]) => id !== raterId).map(([, share]) => share);
  const usual = others.length < leastOthers ? 0 : median(others);
  const near = placed.filter(({ at }) => at === 0);
  return {
    signal: 'bunching',
    looked: total,
    p: binomialAtLeast(just, total, Math.min(0.99, Math.max(peaked, usual))),
    sentence: `${just} results lie within 4 % inside their limit, but only ${outside} as near outside it and ${next} in the next 4 % inside.`,
    houseIds: [...new Set(near.map(({ figure }) => figure.houseId))].slice(0, mostHouses),
    evidence: {
      kind: 'bars',
      xLabel: 'Distance inside the limit, % of the limit',
      yLabel: 'Results',
      columns: ['From the limit', 'Found'],
      rows: Array.from({ length: strips + 3 }, (_, i) => {
        const at = i - 3;
        const [from, to] = [at * 4, (at + 1) * 4];
        return [from < 0 ? `${-to}–${-from} % outside` : `${from}–${to} % inside`, count(at)];
      }),
    },
  };
}
