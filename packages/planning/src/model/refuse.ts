import type { PlanProblem, PlanVisit } from './problem.ts';

/**
 * Throws a RangeError, in words, for a problem that means nothing: a place that is not in the table, a length
 * that is not above 0, windows that overlap, a day that a rater has twice, somebody who is not there.
 */
export function refuseNonsense(problem: PlanProblem): void {
  const { travel, raters, visits } = problem;
  const refuse = (words: string) => {
    throw new RangeError(words);
  };
  const place = (at: number, whose: string) => {
    if (!Number.isInteger(at) || at < 0 || at >= travel.places) refuse(`${whose} is at no known place.`);
  };
  if (travel.minutes.length !== travel.places ** 2 || travel.distance.length !== travel.places ** 2)
    refuse(`The table of travel is not ${travel.places} by ${travel.places}.`);
  if (travel.minutes.some((each) => !(each >= 0)) || travel.distance.some((each) => !(each >= 0)))
    refuse('The table of travel holds something else than distances and minutes from 0 up.');
  const ids = new Set<string>();
  for (const { id, days } of raters) {
    if (ids.has(id)) refuse(`Rater ${id} is there twice.`);
    ids.add(id);
    const seen = new Set<number>();
    for (const { day, from, to, startPlace, endPlace } of days) {
      if (seen.has(day)) refuse(`Rater ${id} has day ${day} twice.`);
      seen.add(day);
      if (!(to >= from)) refuse(`Rater ${id}, day ${day}: the end lies before the start.`);
      place(startPlace, `The start of rater ${id}, day ${day}`);
      place(endPlace, `The end of rater ${id}, day ${day}`);
    }
  }
  for (const visit of visits) refuseVisit(visit, ids, place, refuse);
}

function refuseVisit(
  visit: PlanVisit,
  raters: ReadonlySet<string>,
  place: (at: number, whose: string) => void,
  refuse: (words: string) => void,
): void {
  place(visit.place, `Visit ${visit.id}`);
  if (!(visit.minutes > 0)) refuse(`Visit ${visit.id} lasts ${visit.minutes} minutes; it has to take time.`);
  const windows = [...visit.windows].sort((a, b) => a.from - b.from);
  windows.forEach((each, i) => {
    if (!(each.to >= each.from)) refuse(`Visit ${visit.id} has a window that ends before it starts.`);
    if (i > 0 && each.from < windows[i - 1]!.to) refuse(`Visit ${visit.id} has windows that overlap.`);
  });
  for (const at of [visit.fixed, visit.promised])
    if (at && !raters.has(at.rater)) refuse(`Visit ${visit.id} is with rater ${at.rater}, who is not there.`);
}
