import { never } from './core.ts';
import type { Random } from './random.ts';
import { type Routes, shareCost } from './routes.ts';

/** Where a visit goes in best, as the last look found it. */
export interface Found {
  cost: number;
  shift: number;
  after: number;
}

export const nowhere = (): Found => ({ cost: Infinity, shift: -1, after: -1 });

/**
 * Looks for the cheapest place of a visit in one shift, in a fixed number of steps for each place, and writes it
 * into `found` when it is cheaper than what stands there. With `blinks`, a place is passed over now and then, so
 * that the search does not always take the same one.
 */
export function lookInto(
  routes: Routes,
  v: number,
  s: number,
  found: Found,
  blinks: number,
  random: Random | null,
): void {
  const { core, next, leaves0, leaves1, latest0, latest1 } = routes;
  const { n, place, places, travel, step, cost: ways } = core;
  const at = v * core.shifts.length + s;
  if (!core.allowed[at]) return;
  const { rater, pauseMinutes, pauseFrom, pauseTo, room } = core.shifts[s]!;
  if (routes.load[s]! + core.size[v]! > room) return;
  const minutes = core.minutes[v]!;
  const worked = routes.worked[rater]!;
  const base = core.extra[at]! + shareCost(core, rater, worked + minutes) - shareCost(core, rater, worked);
  if (base >= found.cost) return;
  const opens = core.opens[at]!;
  const closes = core.closes[at]!;
  const own = place[v]!;
  const row = own * places;
  const tail = n + 2 * s + 1;
  for (let i = n + 2 * s, k = next[i]!; i !== tail; i = k, k = next[i]!) {
    const early = leaves0[i]!;
    const later = leaves1[i]!;
    if (early > closes && later > closes) return;
    if (latest0[k]! < opens && latest1[k]! < opens) continue;
    if (random !== null && random.next() < blinks) continue;
    // An empty day costs nothing on its way.
    const before = place[i]! * places;
    const saved = i >= n && k >= n ? 0 : ways[before + place[k]!]!;
    const cost = base + ways[before + own]! + ways[row + place[k]!]! - saved;
    if (cost >= found.cost) continue;
    const there = travel[before + own]!;
    let zero = early + there;
    let one = later + there;
    if (early <= pauseTo) one = Math.min(one, Math.max(zero, pauseFrom) + pauseMinutes);
    zero = zero <= opens ? opens : step > 0 ? Math.ceil(zero / step) * step : zero;
    one = one <= opens ? opens : step > 0 ? Math.ceil(one / step) * step : one;
    zero = zero <= closes ? zero + minutes : never;
    one = one <= closes ? one + minutes : never;
    const onward = travel[row + place[k]!]!;
    let arrives = one + onward;
    if (zero <= pauseTo) arrives = Math.min(arrives, Math.max(zero + onward, pauseFrom) + pauseMinutes);
    if (arrives > latest1[k]! && zero + onward > latest0[k]!) continue;
    found.cost = cost;
    found.shift = s;
    found.after = i;
  }
}

/** Looks through all shifts that a visit may go to; of empty ones that are alike into the first. */
export function lookEverywhere(
  routes: Routes,
  v: number,
  found: Found,
  blinks = 0,
  random: Random | null = null,
): void {
  const { core } = routes;
  const { firstShift, shiftsOf, alike } = core;
  found.cost = Infinity;
  found.shift = -1;
  let emptySeen = -1;
  for (let i = firstShift[v]!; i < firstShift[v + 1]!; i++) {
    const s = shiftsOf[i]!;
    if (routes.count[s] === 0) {
      // Alike shifts stand together more often than not; one seen is enough to pass over the rest.
      if (alike[s] === emptySeen) continue;
      emptySeen = alike[s]!;
    }
    lookInto(routes, v, s, found, blinks, random);
  }
}

/** Puts a visit where it was found to go in best; false when that was nowhere. */
export function putIn(routes: Routes, v: number, found: Found): boolean {
  if (found.shift < 0) return false;
  routes.putIn(v, found.shift, found.after);
  return true;
}
