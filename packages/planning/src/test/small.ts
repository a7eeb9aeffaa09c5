import { emptyTravel, type PlanProblem, type PlanRater, type PlanVisit, usualWeights } from '../index.ts';

const hour = 60;

/** Places along a road, so many minutes from one to the next; the office is place 0. */
export function road(minutes: number, places: number) {
  const travel = emptyTravel(places);
  for (let from = 0; from < places; from++)
    for (let to = 0; to < places; to++)
      travel.minutes[from * places + to] = travel.distance[from * places + to] =
        minutes * Math.abs(from - to);
  return travel;
}

export const visit = (id: string, place: number, own: Partial<PlanVisit> = {}): PlanVisit => ({
  ...{ id, place, minutes: 60, size: 1, priority: 1, wantedFrom: null },
  windows: [{ from: 8 * hour, to: 17 * hour }],
  ...{ instruments: [], qualifications: [], notRaters: [], avoidRater: null, fixed: null, promised: null },
  ...own,
});

export const rater = (id: string, own: Partial<PlanRater> = {}): PlanRater => ({
  ...{ id, qualifications: [], instruments: [], share: 1 },
  days: [{ day: 0, from: 8 * hour, to: 17 * hour, startPlace: 0, endPlace: 0, pause: null, room: null }],
  ...own,
});

export const asked = (
  visits: PlanVisit[],
  raters: PlanRater[],
  own: Partial<PlanProblem> = {},
): PlanProblem => ({
  ...{ visits, raters, travel: road(10, 10), startStep: 5 },
  weights: { ...usualWeights, overShareMinute: 0, farOverShareMinute: 0 },
  ...own,
});
