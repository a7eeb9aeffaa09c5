import type { Routes } from '../solver/routes.ts';
import { keepTimes } from '../solver/times.ts';
import type { PlannedDay, PlannedVisit } from './plan.ts';

/** The days of a plan, with a clock time for each visit; those without any visit are left out. */
export function timetable(routes: Routes): PlannedDay[] {
  return routes.core.shifts.flatMap((_, s) => (routes.count[s]! > 0 ? [dayOf(routes, s)] : []));
}

function dayOf(routes: Routes, s: number): PlannedDay {
  const { core, next, starts } = routes;
  const { problem, n, place, places, minutes } = core;
  const { rater, day, from, pauseMinutes, pauseFrom } = core.shifts[s]!;
  const [head, tail] = [n + 2 * s, n + 2 * s + 1];
  const pausedAfter = keepTimes(routes, s, starts);
  const visits: PlannedVisit[] = [];
  const ways = (i: number, k: number) => {
    const at = place[i]! * places + place[k]!;
    return { minutes: problem.travel.minutes[at]!, distance: problem.travel.distance[at]! };
  };
  const whole = { driveMinutes: 0, driveDistance: 0 };
  let [ready, pause, leaves] = [from, null as PlannedDay['pause'], from];
  for (let i = head, k = next[head]!; ; i = k, k = next[k]!) {
    const way = ways(i, k);
    whole.driveMinutes += way.minutes;
    whole.driveDistance += way.distance;
    if (i === pausedAfter) {
      const begins = Math.max(ready, pauseFrom);
      pause = { from: begins, to: begins + pauseMinutes };
    }
    if (k === tail) {
      let returns = ready + way.minutes;
      // On the way back the break stops the journey; after it, it is no part of the day.
      if (i === pausedAfter && pause && pause.from < returns) returns += pauseMinutes;
      else if (i === pausedAfter) pause = null;
      return { rater: problem.raters[rater]!.id, day, leaves, returns, visits, pause, ...whole };
    }
    const start = starts[k]!;
    if (i === head) leaves = Math.max(from, start - way.minutes);
    if (i === head && pause) {
      // A break before leaving is no part of the day; one that would stop the first drive is.
      if (pause.to <= leaves) pause = null;
      else leaves = Math.max(from, start - way.minutes - pauseMinutes);
    }
    visits.push({
      visit: problem.visits[k]!.id,
      ...{ start, end: start + minutes[k]!, driveMinutes: way.minutes, driveDistance: way.distance },
    });
    ready = start + minutes[k]!;
  }
}
