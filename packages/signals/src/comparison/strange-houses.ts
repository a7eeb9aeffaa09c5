import type { Figure } from '../figures.ts';
import { groupBy } from '../statistics/group-by.ts';
import { median, robustSpread } from '../statistics/robust.ts';
import { below, leastOfAPlace, placesOf } from './places.ts';

/** A reading beside what was reported for the same thing; logarithms, so that houses of any size compare. */
interface Beside {
  houseId: string;
  installerId: string | null;
  item: string;
  /** ln(reading ÷ reported) */
  off: number;
  /** ln(reading) */
  size: number;
  /** relative standard uncertainty by the stated accuracy; 0 when unknown */
  accuracy: number;
  /** 1 where a lower figure is kinder to who reported it, −1 where a higher one is, 0 when there is no limit */
  kinder: number;
}

/** A house by the readings of one rater. */
export interface Held {
  houseId: string;
  installerId: string;
  readings: number;
  /** |ln(reading ÷ reported)| in the middle of its readings */
  apart: number;
  /** ln of how many times likelier the readings are in some other house than beside what was reported for this one */
  weight: number;
  /** likelier in some other house than in this one */
  strange: boolean;
}

const leastRaters = 3;
const leastPool = 40;
const leastReadings = 3;
/** The newest of so many readings of a rater are looked at; more would only take longer. */
const mostOfARater = 4000;
/** The most that one reading adds or takes: twenty times as likely. A mark of our own. */
const twenty = Math.log(20);
/** A rater's readings may scatter up to so many times as far as the others' before that says anything. Our own mark. */
const mostScatter = 2;
/** So much kinder than the house an installer's figures may be throughout: ln of a share. A mark of our own. */
const mostKindness = Math.log(1.25);
/** Half widths of what is counted around a reading: of what is usually left over, and of the sizes of houses. */
const widthOfOffs = 0.75;
const widthOfSizes = 0.5;
/** … and no narrower than what figures are rounded to; a share. Marks of our own. */
const leastWidth = 0.01;

function besideOf(figures: readonly Figure[]): Beside[] {
  return figures.flatMap((figure) => {
    const { value, reported, readAgain, uncertainty, houseId, installerId, item, limit } = figure;
    if (readAgain || value === null || reported === null || !(value > 0) || !(reported > 0)) return [];
    const accuracy = uncertainty === null ? 0 : Math.abs(uncertainty / value);
    const kinder = limit === null ? 0 : limit.inside === 'below' ? 1 : -1;
    const [off, size] = [Math.log(value / reported), Math.log(value)];
    return [{ houseId, installerId, item, off, size, accuracy, kinder }];
  });
}

/** A reading after what is known of its rater and of its house was taken from it. */
interface Rest {
  raterId: string;
  row: Beside;
  /** ln(reading ÷ reported), less the rater's place, above zero where the installer's figure was the kinder one */
  off: number;
  /** the same less what is common to the house */
  rest: number;
}

/** What lies between raters is taken out: their instruments' lasting errors are no sign. */
function placed(byRater: ReadonlyMap<string, Beside[]>, accuracy: number): Rest[] {
  const of = new Map([...byRater].map(([id, rows]) => [id, rows.map(({ off }) => off)]));
  const known = placesOf(of, accuracy);
  if (!known) return [];
  // An item has one side on which figures are kind; a limit with two sides is met from its nearer one.
  const sides = [...byRater.values()].flat().reduce((sum, { kinder }) => sum + kinder, 0);
  return [...byRater].flatMap(([raterId, rows]) =>
    rows.map((row) => {
      const off = (row.off - known.places.get(raterId)!.place) * (sides < 0 ? -1 : 1);
      return { raterId, row, off, rest: off };
    }),
  );
}

/**
 * What is common to a house is taken out as well: an installer whose figures are all kinder than the house is what
 * readings are taken for, and finding him out must be no sign against a rater.
 */
function takeOutKindness(rests: readonly Rest[]): void {
  for (const house of groupBy(rests, ({ raterId, row }) => `${raterId} ${row.houseId}`).values()) {
    const kindness = Math.max(0, Math.min(mostKindness, median(house.map(({ off }) => off))));
    for (const each of house) each.rest = each.off - kindness;
  }
}

/** How many times likelier a reading is in some other house than in this one, as a logarithm. */
type Weigh = (of: Rest) => number | null;

/** Everybody's readings of an item say what is usual beside a reported figure, and what is usual at all. */
function weighing(all: readonly Rest[], accuracy: number): Weigh {
  const byRater = groupBy(all, ({ raterId }) => raterId);
  const own = new Map(
    [...byRater].map(([id, rests]) => [id, Float64Array.from(rests, ({ rest }) => rest).sort()]),
  );
  const enough = [...own].filter(([, rests]) => rests.length >= leastOfAPlace);
  const scatters = new Map(enough.map(([id, rests]) => [id, robustSpread([...rests])]));
  const scatter = median([...scatters.values()]);
  const pool = Float64Array.from(enough.flatMap(([, rests]) => [...rests])).sort();
  const sizes = Float64Array.from(all, ({ row }) => row.size).sort();
  const [nearOff, nearSize] = [
    Math.max(leastWidth, accuracy, widthOfOffs * scatter),
    Math.max(leastWidth, accuracy, widthOfSizes * robustSpread([...sizes])),
  ];
  const around = (sorted: Float64Array, at: number, half: number) =>
    below(sorted, at + half) - below(sorted, at - half);
  return ({ raterId, row, rest }) => {
    const theirs = scatters.get(raterId);
    const mine = theirs === undefined ? new Float64Array() : own.get(raterId)!;
    const others = pool.length - mine.length;
    if (others < leastPool || scatters.size - (theirs === undefined ? 0 : 1) < leastRaters) return null;
    const narrowed = theirs ? Math.max(1 / mostScatter, Math.min(1, scatter / theirs)) : 1;
    const at = rest * narrowed;
    const here = (around(pool, at, nearOff) - around(mine, at, nearOff) + 0.5) / (others + 1) / nearOff;
    const anywhere = (around(sizes, row.size, nearSize) + 0.5) / (sizes.length + 1) / nearSize;
    return Math.max(-twenty, Math.min(twenty, Math.log(anywhere / here)));
  };
}

/** The houses of every rater. */
export type Houses = ReadonlyMap<string, readonly Held[]>;

/**
 * Whether readings belong to what was reported for their house, over all raters: they are added one after the other.
 *
 * Two densities are set against each other for each reading. Beside what was reported: that of the other raters'
 * ln(reading ÷ reported) of the item, less the rater's own middle and less what is common to a house all of whose
 * figures are kinder than its readings, around this one's; a rater whose readings scatter more is given up to twice the
 * room. In some other house: that of everybody's ln(reading) of the item, around this one. Both are counts within a
 * width, with half a reading added. The logarithms of their ratio, at most ln 20 either way, are summed over the
 * readings of a house. A wild number, such as a slipped point, is usual in no house and weighs nothing.
 * Source: naive Bayes with counts for densities (textbook, from memory); widths and bounds are marks of our own.
 * A house with fewer than three readings that can be weighed, or without an installer, is left out. Never throws.
 */
export function beginHouses() {
  const byRater = new Map<string, Beside[]>();
  return {
    add({ raterId, figures }: { raterId: string; figures: readonly Figure[] }): void {
      byRater.set(raterId, besideOf(figures).slice(-mostOfARater));
    },
    houses(): Houses {
      const items = new Set([...byRater.values()].flatMap((rows) => rows.map(({ item }) => item)));
      const byItem = [...items].map((item) => {
        const raters = [...byRater].map(
          ([id, rows]) => [id, rows.filter((row) => row.item === item)] as const,
        );
        const read = new Map(raters.filter(([, rows]) => rows.length > 0));
        const all = [...read.values()].flat();
        const accuracy = all.reduce((sum, each) => sum + each.accuracy, 0) / all.length;
        return { item, accuracy, rests: placed(read, accuracy) };
      });
      const rests = byItem.flatMap((each) => each.rests);
      takeOutKindness(rests);
      const weighs = new Map(byItem.map(({ item, accuracy, rests: of }) => [item, weighing(of, accuracy)]));
      const found = new Map<string, Held[]>([...byRater].map(([raterId]) => [raterId, []]));
      for (const house of groupBy(rests, ({ raterId, row }) => `${raterId} ${row.houseId}`).values()) {
        const {
          raterId,
          row: { houseId },
        } = house[0]!;
        const weights = house.flatMap((each) => weighs.get(each.row.item)!(each) ?? []);
        const installerId = house.find(({ row }) => row.installerId !== null)?.row.installerId ?? null;
        if (installerId === null || weights.length < leastReadings) continue;
        const weight = weights.reduce((sum, each) => sum + each, 0);
        const apart = median(house.map(({ row }) => Math.abs(row.off)));
        const held = { houseId, installerId, readings: weights.length, apart, weight };
        found.get(raterId)!.push({ ...held, strange: weight > 0 });
      }
      return found;
    },
  };
}
