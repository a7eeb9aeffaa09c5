import {
  besideBySort,
  edge,
  usualOf,
  type Beside,
  type Sorts,
  type Usual,
} from '../comparison/beside-limits.ts';
import type { Figure } from '../figures.ts';
import { moments, sumAtLeast, type ThreeWay } from '../statistics/three-way.ts';
import { mostHouses, type Outcome } from './finding.ts';

/**
 * How far beyond its limit a result fails narrowly, in ln(result ÷ limit), and how much of the p-value's budget each
 * width has: the narrower, where most is to be gained by a few percent, the larger part. Marks of our own.
 */
const windows = [
  { window: 0.1, part: 0.75 },
  { window: 0.2, part: 0.25 },
];
/** The strip just inside, and how far inside a result still is near its limit; marks of our own. */
const strip = 0.04;
const near = 0.12;
/** A result lies in the strip by a slip at least so often, whatever the others show. A mark of our own. */
const slips = 0.02;
/** What is scored: that so large a share of the narrow failures stands in the strip instead. A mark of our own. */
const moved = 0.9;
const negligible = 0.001;
/** Narrow failures to be expected before the test says anything; common practice, no published source. */
const least = 2;

interface Chances {
  /** of failing narrowly */
  out: number;
  /** of passing narrowly, in the strip */
  strip: number;
  /** of lying near the limit at all */
  near: number;
}

/** Where a result begins to fail narrowly, to pass, to lie farther inside than the strip, and not to be near. */
const edgesOf = (row: Beside, window: number) => [-window, 0, strip, near].map((bound) => edge(row, bound));

function chancesOf({ between }: Usual, row: Beside, edges: readonly number[], shift: number): Chances {
  const [far, limit, inner, end] = edges as [number, number, number, number];
  const out = between(row, far, limit, shift);
  const within = between(row, limit, inner, shift);
  const inside = between(row, limit, end, shift);
  if (row.reported !== null)
    return { out, strip: Math.min(1 - out, Math.max(slips, within)), near: out + inside };
  // With nothing to go by only those near the limit are looked at: how many come near it is a matter of the houses.
  const whole = out + inside;
  return whole > 0 ? { out: out / whole, strip: within / whole, near: 1 } : { out: 0, strip: 0, near: 0 };
}

/** Nodes and weights of Gauss and Hermite's rule of seven for a standard normal variable (from memory; tested). */
export const nodes: readonly (readonly [number, number])[] = [
  [0, 16 / 35],
  ...[-1, 1].flatMap((sign) => [
    [sign * 1.1544053947399682, 0.2401231786050127] as const,
    [sign * 2.366759410734541, 0.03075712396758651] as const,
    [sign * 3.750439717725742, 0.0005482688559722178] as const,
  ]),
];

interface Group {
  usual: Usual;
  rows: Beside[];
}
interface Told extends Chances {
  row: Beside;
  edges: readonly number[];
  usual: Usual;
}
interface Around {
  window: number;
  rows: Told[];
  p: number;
}

const low = Math.log1p(-moved);
/** What a result in the strip scores: the more, the likelier it was to fail. */
const high = (chances: Chances) => Math.log1p((moved * chances.out) / Math.max(chances.strip, negligible));
const isOut = ({ x }: Beside, window: number) => x < 0 && x >= -window;
const isIn = ({ x }: Beside) => x >= 0 && x < strip;

function around(window: number, part: number, groups: readonly Group[]): Around | null {
  const sets = groups.map(({ usual, rows }) => {
    const looked = rows.filter(({ x, reported }) => reported !== null || (x >= -window && x < near));
    const told = looked.map((row): Told => {
      const edges = edgesOf(row, window);
      return { row, usual, edges, ...chancesOf(usual, row, edges, 0) };
    });
    return { usual, told: told.filter(({ out }) => out > negligible) };
  });
  const rows = sets.flatMap(({ told }) => told);
  if (rows.reduce((sum, { out }) => sum + out, 0) < least) return null;
  const score = rows.reduce(
    (sum, each) => sum + (isOut(each.row, window) ? low : isIn(each.row) ? high(each) : 0),
    0,
  );
  const trialsAt = (shiftOf: (usual: Usual) => number): ThreeWay[][] =>
    sets.map(({ usual, told }) => {
      const shift = shiftOf(usual);
      return told.map((each) => {
        const chances = chancesOf(usual, each.row, each.edges, shift);
        return { low, high: high(each), chanceOfLow: chances.out, chanceOfHigh: chances.strip };
      });
    });
  // What is not known – the rater's own middles, the others' shares – may move the score: along the line that moves
  // it most, as far as both together.
  const [less, here, more] = [-1, 0, 1].map((sign) =>
    trialsAt(({ unsure }) => sign * unsure).map(moments),
  ) as [ReturnType<typeof moments>[], ReturnType<typeof moments>[], ReturnType<typeof moments>[]];
  const pulls = new Map(sets.map(({ usual }, i) => [usual, (more[i]!.mean - less[i]!.mean) / 2]));
  const byMiddles = [...pulls.values()].reduce((sum, pull) => sum + pull ** 2, 0);
  const byPools = sets.reduce(
    (sum, { usual, told }, i) => sum + (here[i]!.variance * told.length) / usual.pool,
    0,
  );
  const reach = byMiddles > 0 ? Math.sqrt(byMiddles + byPools) / byMiddles : 0;
  const p = nodes.reduce((sum, [z, weight]) => {
    const trials = trialsAt((usual) => z * usual.unsure * pulls.get(usual)! * reach).flat();
    return sum + weight * sumAtLeast(trials, score);
  }, 0);
  return { window, rows, p: Math.min(1, p / part) };
}

/**
 * Are narrow failures missing, and results gathered just inside the limit instead?
 *
 * Null hypothesis: a result fails by less than 10 % (or 20 %) of its limit, or passes by less than 4 %, as often as
 * the other raters' results lead one to expect of this one: from what was reported for it and what is usual for its
 * item, installer and the rater's own middle, as the display rounds (see `usualOf`, `edge`). Results beside which
 * nothing was reported are taken as they are near the limit. Statistic: the logarithm of the likelihood that nine of
 * ten narrow failures stand in the strip instead, over that of the null hypothesis, summed over all results of all
 * items. p-value: saddlepoint tail of that sum, averaged over what is not known of the rater's middles and the
 * others' shares; the smaller of the two widths, each over its part of the budget (weighted Bonferroni). Of what was read again during a visit the
 * last reading counts, so that reading until it passes is seen as well.
 * Source: a likelihood-ratio test (Neyman and Pearson, textbook, from memory); widths and the nine of ten are marks of
 * our own. Null when fewer than two narrow failures are to be expected or fewer than three others have measured
 * such. Never throws.
 */
export function narrowFailures(figures: readonly Figure[], raterId: string, all: Sorts): Outcome | null {
  const groups = [...besideBySort(figures)].flatMap(([sort, rows]) => {
    const usual = usualOf(sort, raterId, all);
    return usual ? [{ usual, rows }] : [];
  });
  const tried = windows.flatMap(({ window, part }) => around(window, part, groups) ?? []);
  if (tried.length === 0) return null;
  const { window, rows, p } = tried.reduce((a, b) => (b.p < a.p ? b : a));
  const percent = Math.round(window * 100);
  const bands: [string, (row: Beside) => boolean, (chances: Chances) => number][] = [
    [`fail by up to about ${percent} %`, (row) => isOut(row, window), ({ out }) => out],
    ['pass by less than 4 %', isIn, (chances) => chances.strip],
    [
      'pass by 4 to 12 %',
      ({ x }) => x >= strip && x < near,
      (chances) => Math.max(0, chances.near - chances.out - chances.strip),
    ],
  ];
  const counted = bands.map(([words, holds, chance]): [string, number, number] => [
    words,
    rows.filter(({ row }) => holds(row)).length,
    Number(rows.reduce((sum, each) => sum + chance(each), 0).toFixed(1)),
  ]);
  const [out, inside] = [counted[0]!, counted[1]!];
  const telling = rows.filter(({ row }) => isIn(row)).sort((a, b) => high(b) - high(a));
  return {
    signal: 'bunching',
    looked: rows.length,
    p,
    sentence: `${out[1]} results fail by less than about ${percent} % of their limit where ${out[2]} were to be expected, and ${inside[1]} pass by less than 4 % where ${inside[2]} were.`,
    houseIds: [...new Set(telling.map(({ row }) => row.houseId))].slice(0, mostHouses),
    evidence: {
      kind: 'bars',
      xLabel: 'Distance from the limit',
      yLabel: 'Results',
      columns: ['Results that', 'Found', 'Expected by the other raters’'],
      rows: counted,
    },
  };
}
