import type { Figure } from '../figures.ts';
import { leaningsOf } from './leanings.ts';
import { below, leastOfAPlace, placesOf, type Place } from './places.ts';

/** A result beside its limit, and beside what was reported where something was. */
export interface Beside {
  houseId: string;
  installerId: string | null;
  limit: NonNullable<Figure['limit']>;
  /** results that are held against the same sort of limit with the same to go by */
  sort: string;
  /** ln of how far inside the limit the result lies; below zero it fails */
  x: number;
  /** the same of the reported figure; null where nothing was reported */
  reported: number | null;
  /** step of the display in the unit of the result; null when the result is not the number on it */
  step: number | null;
  /** relative standard uncertainty by the stated accuracy; null when unknown */
  accuracy: number | null;
}

const inside = (value: number, { value: limit, inside: side }: NonNullable<Figure['limit']>) => {
  const x = Math.log(value / limit) * (side === 'below' ? -1 : 1);
  return Math.abs(x) < 1e-9 ? 0 : x;
};

/** A result that is the number on the display falls on a step of it. */
function stepOf({ value, shown }: Figure): number | null {
  return (
    shown.find((each) => each.step !== null && Math.abs(Math.abs(each.value) - value!) < 1e-9)?.step ?? null
  );
}

/**
 * Where, before the display rounded, a result began to count as lying at `bound` or farther inside: half a step from
 * the last step that does. With whole cfm and a limit of 50 what passes begins at 49.5, and that is 1 %.
 */
export function edge({ limit, step }: Beside, bound: number): number {
  if (step === null) return bound;
  const { value, inside: side } = limit;
  if (side === 'above')
    return Math.log((Math.ceil((value * Math.exp(bound)) / step - 1e-6) - 0.5) * (step / value));
  return -Math.log((Math.floor((value * Math.exp(-bound)) / step + 1e-6) + 0.5) * (step / value));
}

/** The results that have a limit, as the rater left them: without those read again during the same visit. */
export function besideLimits(figures: readonly Figure[]): Beside[] {
  return figures.flatMap((figure) => {
    const { value, limit, item, readAgain, uncertainty, houseId, installerId } = figure;
    if (readAgain || value === null || !limit || !(value > 0) || !(limit.value > 0)) return [];
    const reported = figure.reported !== null && figure.reported > 0 ? inside(figure.reported, limit) : null;
    const sort = `${item}/${limit.inside}/${reported === null ? 'alone' : 'reported'}`;
    return [
      {
        ...{ houseId, installerId, limit, sort, x: inside(value, limit), reported, step: stepOf(figure) },
        accuracy: uncertainty === null ? null : Math.abs(uncertainty / value),
      },
    ];
  });
}

const mean = (values: readonly number[]) => values.reduce((sum, each) => sum + each, 0) / values.length;
const square = (x: number) => x * x;

const leastOthers = 3;
const leastPool = 40;
/** The newest of so many results of a rater and sort say what is usual; more would only take longer. */
const mostOfARater = 400;

/** One rater's results of a sort beside everybody's. */
interface Own extends Place {
  /** the differences less that, in order; empty with too few of them to say what is usual */
  centred: Float64Array;
}

interface Sort {
  /** what a result is foreseen to be by what was reported; 0 where nothing was */
  foresee(row: Beside): number;
  /** everybody's differences, each less its rater's place, in order */
  pool: Float64Array;
  owns: Map<string, Own>;
}

export type Sorts = ReadonlyMap<string, Sort>;

/**
 * Every sort of result over all raters, worked out once for a look: raters are added one after the other, and of each
 * the newest results are kept. Pure; never throws.
 */
export function beginSorts() {
  const bySort = new Map<string, Map<string, Beside[]>>();
  return {
    add({ raterId, figures }: { raterId: string; figures: readonly Figure[] }): void {
      for (const [sort, rows] of besideBySort(figures)) {
        const groups = bySort.get(sort) ?? new Map<string, Beside[]>();
        bySort.set(sort, groups);
        groups.set(raterId, rows.slice(-mostOfARater));
      }
    },
    sorts: (): Sorts => new Map([...bySort].map(([sort, groups]) => [sort, sortOf(groups)])),
  };
}

/** A rater's results beside their limits, by what they are held against. */
export function besideBySort(figures: readonly Figure[]): Map<string, Beside[]> {
  const groups = new Map<string, Beside[]>();
  for (const row of besideLimits(figures)) {
    const group = groups.get(row.sort);
    if (group) group.push(row);
    else groups.set(row.sort, [row]);
  }
  return groups;
}

/** Mean relative standard uncertainty of results by the stated accuracy of their instruments; 0 when unknown. */
function accuracyOf(rows: readonly Beside[]): number {
  const known = rows.flatMap(({ accuracy }) => accuracy ?? []);
  return known.length === 0 ? 0 : mean(known);
}

function sortOf(groups: ReadonlyMap<string, Beside[]>): Sort {
  const enough = [...groups.values()].filter((own) => own.length >= leastOfAPlace);
  const leaning = leaningsOf(
    enough.map((rows) =>
      rows.flatMap(({ x, reported, installerId }) =>
        reported === null ? [] : [{ installerId, off: x - reported }],
      ),
    ),
  );
  const leaningFor = ({ reported, installerId }: Beside) =>
    reported === null ? 0 : reported + (leaning.get(installerId ?? '') ?? 0);
  const slope = slopeOf(enough, leaningFor);
  const foresee = (row: Beside) => slope * leaningFor(row);
  const offsOf = (rows: readonly Beside[]) => rows.map((row) => row.x - foresee(row));
  const offs = new Map([...groups].map(([id, own]) => [id, offsOf(own)]));
  const known = placesOf(offs, mean(enough.map(accuracyOf)));
  if (!known) {
    const nobody: Own = { place: 0, unsure: 0, centred: new Float64Array() };
    return { foresee, pool: nobody.centred, owns: new Map([...groups].map(([id]) => [id, nobody])) };
  }
  const owns = new Map(
    [...known.places].map(([id, own]): [string, Own] => {
      const differences = offs.get(id)!;
      const centred =
        differences.length < leastOfAPlace
          ? new Float64Array()
          : Float64Array.from(differences, (off) => off - own.place).sort();
      return [id, { ...own, centred }];
    }),
  );
  const pool = Float64Array.from([...owns.values()].flatMap(({ centred }) => [...centred])).sort();
  return { foresee, pool, owns };
}

export interface Usual {
  /** chance that such a result lies between two bounds, when the rater's middle is moved by `shift` */
  between(row: Beside, from: number, to: number, shift: number): number;
  /** standard deviation of what is not known about the rater's own middle */
  unsure: number;
  /** results of others behind it */
  pool: number;
}

/**
 * What the other raters' results of a sort lead one to expect of this rater's: their differences from what was
 * reported (or from the limit), each moved from the middle of its rater to the middle of this one, since neither a
 * lasting error of an instrument nor better houses are a sign of anything. His own are left out of the chances.
 * Fewer than three others with eight results, or 40 results in all: null. Never throws.
 */
export function usualOf(sort: string, raterId: string, all: Sorts): Usual | null {
  const known = all.get(sort);
  const own = known?.owns.get(raterId);
  if (!known || !own) return null;
  const others = [...known.owns].filter(([id, { centred }]) => id !== raterId && centred.length > 0).length;
  const pool = known.pool.length - own.centred.length;
  if (others < leastOthers || pool < leastPool) return null;
  const count = (bound: number) => below(known.pool, bound) - below(own.centred, bound);
  return {
    between(row, from, to, shift) {
      const moved = known.foresee(row) + own.place + shift;
      return Math.max(0, count(to - moved) - count(from - moved)) / pool;
    },
    unsure: own.unsure,
    pool,
  };
}

/**
 * By how much a result follows what was reported: the slope of least squares within raters. It is below one, since
 * part of what makes a reported figure low is the installer's instrument. No two reported figures: one.
 */
function slopeOf(raters: readonly (readonly Beside[])[], given: (row: Beside) => number): number {
  let [sxx, sxy] = [0, 0];
  for (const rows of raters) {
    const reported = rows.map(given);
    const [mx, mr] = [mean(rows.map(({ x }) => x)), mean(reported)];
    reported.forEach((each, i) => {
      sxx += square(each - mr);
      sxy += (each - mr) * (rows[i]!.x - mx);
    });
  }
  return sxx > 1e-9 ? sxy / sxx : 1;
}
