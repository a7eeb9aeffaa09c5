import { never } from './core.ts';
import type { Routes } from './routes.ts';

/**
 * Earliest departures forward and latest arrivals backward along a shift; false when the times do not fit. A
 * break may fall before, between or after visits and on the road; while driving it stops the journey.
 */
export function workOutTimes(routes: Routes, s: number): boolean {
  const { core, next, leaves0, leaves1 } = routes;
  const { n, place, places, travel, minutes, step } = core;
  const { from, to, pauseMinutes, pauseFrom, pauseTo } = core.shifts[s]!;
  const count = core.shifts.length;
  const [head, tail] = [n + 2 * s, n + 2 * s + 1];
  const paused = pauseMinutes > 0;
  leaves0[head] = paused ? from : never;
  leaves1[head] = !paused ? from : from <= pauseTo ? Math.max(from, pauseFrom) + pauseMinutes : never;
  workBack(routes, s);
  for (let i = head, k = next[head]!; ; i = k, k = next[k]!) {
    const t = travel[place[i]! * places + place[k]!]!;
    const early = leaves0[i]!;
    let one = leaves1[i]! + t;
    if (early <= pauseTo) one = Math.min(one, Math.max(early + t, pauseFrom) + pauseMinutes);
    let zero = early + t;
    if (k === tail) return zero <= Math.min(to, pauseTo) || one <= to;
    const at = k * count + s;
    const opens = core.opens[at]!;
    const closes = core.closes[at]!;
    zero = zero <= opens ? opens : step > 0 ? Math.ceil(zero / step) * step : zero;
    one = one <= opens ? opens : step > 0 ? Math.ceil(one / step) * step : one;
    leaves0[k] = zero <= closes ? zero + minutes[k]! : never;
    leaves1[k] = one <= closes ? one + minutes[k]! : never;
  }
}

function workBack(routes: Routes, s: number): void {
  const { core, previous, latest0, latest1 } = routes;
  const { n, place, places, travel, minutes, step } = core;
  const { to, pauseMinutes, pauseFrom, pauseTo } = core.shifts[s]!;
  const count = core.shifts.length;
  const [head, tail] = [n + 2 * s, n + 2 * s + 1];
  const paused = pauseMinutes > 0;
  latest1[tail] = to;
  latest0[tail] = paused ? Math.min(to, pauseTo) : -never;
  for (let k = tail, j = previous[tail]!; j !== head; k = j, j = previous[j]!) {
    const t = travel[place[j]! * places + place[k]!]!;
    const afterPause = latest1[k]! - pauseMinutes;
    let zero = latest0[k]! - t;
    if (paused && pauseFrom <= afterPause) zero = Math.max(zero, Math.min(pauseTo, afterPause - t));
    const at = j * count + s;
    latest0[j] = latestStart(zero - minutes[j]!, core.opens[at]!, core.closes[at]!, step);
    latest1[j] = latestStart(latest1[k]! - t - minutes[j]!, core.opens[at]!, core.closes[at]!, step);
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
