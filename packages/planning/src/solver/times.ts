import { never } from './core.ts';
import type { Routes } from './routes.ts';

/**
 * Earliest departures forward and latest arrivals backward along a shift; false when the times do not fit. A
 * break may fall before, between or after visits and on the road; while driving it stops the journey.
 */
export function workOutTimes(routes: Routes, s: number): boolean {
  const { core, leaves0, leaves1, latest0, latest1 } = routes;
  const { from, to, pauseMinutes, pauseFrom, pauseTo } = core.shifts[s]!;
  const [head, tail] = [core.n + 2 * s, core.n + 2 * s + 1];
  const paused = pauseMinutes > 0;
  leaves0[head] = paused ? from : never;
  leaves1[head] = !paused ? from : from <= pauseTo ? Math.max(from, pauseFrom) + pauseMinutes : never;
  latest1[tail] = to;
  latest0[tail] = paused ? Math.min(to, pauseTo) : -never;
  workBack(routes, s, tail, -1);
  return workForward(routes, s, head, -1);
}

/** The same after one visit was put in where it fits: only as far as it changes anything. */
export function workAround(routes: Routes, s: number, v: number): void {
  workForward(routes, s, routes.previous[v]!, v);
  workBack(routes, s, routes.next[v]!, v);
}

/**
 * Earliest departures after node `i`. Behind the visit `changed` it ends with the first one that stays as it was; with
 * −1 it goes on to the end and says whether the times fit.
 */
function workForward(routes: Routes, s: number, i: number, changed: number): boolean {
  const { core, next, leaves0, leaves1 } = routes;
  const { n, place, places, travel, minutes, step, opens, closes } = core;
  const { to, pauseMinutes, pauseFrom, pauseTo } = core.shifts[s]!;
  const count = core.shifts.length;
  const tail = n + 2 * s + 1;
  let early = leaves0[i]!;
  let later = leaves1[i]!;
  for (let at = place[i]!, k = next[i]!; ; k = next[k]!) {
    const t = travel[at * places + place[k]!]!;
    let zero = early + t;
    let one = later + t;
    if (early <= pauseTo) one = Math.min(one, Math.max(zero, pauseFrom) + pauseMinutes);
    if (k === tail) return zero <= Math.min(to, pauseTo) || one <= to;
    const first = opens[k * count + s]!;
    const last = closes[k * count + s]!;
    zero = zero <= first ? first : step > 0 ? Math.ceil(zero / step) * step : zero;
    one = one <= first ? first : step > 0 ? Math.ceil(one / step) * step : one;
    early = zero <= last ? zero + minutes[k]! : never;
    later = one <= last ? one + minutes[k]! : never;
    if (changed >= 0 && k !== changed && leaves0[k] === early && leaves1[k] === later) return true;
    leaves0[k] = early;
    leaves1[k] = later;
    at = place[k]!;
  }
}

/** Latest arrivals before node `k`, as far as `workForward` goes. */
function workBack(routes: Routes, s: number, k: number, changed: number): void {
  const { core, previous, latest0, latest1 } = routes;
  const { n, place, places, travel, minutes, step, opens, closes } = core;
  const { pauseMinutes, pauseFrom, pauseTo } = core.shifts[s]!;
  const count = core.shifts.length;
  const head = n + 2 * s;
  const paused = pauseMinutes > 0;
  let zeroK = latest0[k]!;
  let oneK = latest1[k]!;
  for (let at = place[k]!, j = previous[k]!; j !== head; j = previous[j]!) {
    const t = travel[place[j]! * places + at]!;
    const afterPause = oneK - pauseMinutes;
    let zero = zeroK - t;
    if (paused && pauseFrom <= afterPause) zero = Math.max(zero, Math.min(pauseTo, afterPause - t));
    const first = opens[j * count + s]!;
    const last = closes[j * count + s]!;
    zeroK = latestStart(zero - minutes[j]!, first, last, step);
    oneK = latestStart(oneK - t - minutes[j]!, first, last, step);
    if (changed >= 0 && j !== changed && latest0[j] === zeroK && latest1[j] === oneK) return;
    latest0[j] = zeroK;
    latest1[j] = oneK;
    at = place[j]!;
  }
}

function latestStart(latest: number, opens: number, closes: number, step: number): number {
  const time = Math.min(latest, closes);
  if (time < opens) return -never;
  return step > 0 ? Math.max(opens, Math.floor(time / step) * step) : time;
}

/**
 * The timetable that is kept on a shift whose times fit: everything as early as possible, and the break as
 * late as it may be. Fills `starts` for its visits; gives the node before the break, −1 when it comes
 * after work or there is none.
 */
export function keepTimes(routes: Routes, s: number, starts: Float64Array): number {
  const { core, next, latest0 } = routes;
  const { n, place, places, travel, minutes, step } = core;
  const { from, pauseMinutes, pauseFrom } = core.shifts[s]!;
  const [head, tail] = [n + 2 * s, n + 2 * s + 1];
  let ahead = pauseMinutes > 0;
  let pausedAfter = -1;
  let time = from;
  for (let i = head, k = next[head]!; ; i = k, k = next[k]!) {
    const arrives = time + travel[place[i]! * places + place[k]!]!;
    const opens = k === tail ? 0 : core.opens[k * core.shifts.length + s]!;
    const start = (at: number) =>
      k === tail ? at : at <= opens ? opens : step > 0 ? Math.ceil(at / step) * step : at;
    time = start(arrives);
    if (ahead && time > latest0[k]!) {
      ahead = false;
      pausedAfter = i;
      time = start(Math.max(arrives, pauseFrom) + pauseMinutes);
    }
    if (k === tail) return pausedAfter;
    starts[k] = time;
    time += minutes[k]!;
  }
}
