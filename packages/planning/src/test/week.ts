import {
  type PlanProblem,
  type PlanRater,
  type PlanVisit,
  travelFromCoordinates,
  usualWeights,
} from '../index.ts';
import { Random } from '../solver/random.ts';

const hour = 60;
const day = 24 * hour;

export interface WeekSize {
  raters: number;
  visits: number;
  seed: number;
}

/** An invented week: raters start at home, houses stand in subdivisions, some want an hour, a day or a skill. */
export function companyWeek({ raters, visits, seed }: WeekSize): PlanProblem {
  const random = new Random(seed);
  const near = (of: { latitude: number; longitude: number }, degrees: number) => ({
    latitude: of.latitude + (random.next() - 0.5) * degrees,
    longitude: of.longitude + (random.next() - 0.5) * degrees,
  });
  const middle = { latitude: 41, longitude: -91 };
  const communities = Array.from({ length: Math.max(3, Math.ceil(visits / 12)) }, () => near(middle, 0.9));
  const homes = Array.from({ length: raters }, () => near(middle, 0.8));
  const houses = Array.from({ length: visits }, () =>
    near(communities[random.below(communities.length)]!, 0.02),
  );
  return {
    visits: houses.map((_, i) => anyVisit(i, raters, random)),
    raters: homes.map((_, i) => anyRater(i, visits, random)),
    travel: travelFromCoordinates([...houses, ...homes], {
      circuity: 1.3,
      kilometresPerHour: 50,
      extraMinutes: 3,
    }),
    weights: usualWeights,
    startStep: 5,
  };
}

function anyVisit(i: number, raters: number, random: Random): PlanVisit {
  const [first, last] = [random.below(3), 3 + random.below(2)];
  const morning = random.next() < 0.2;
  return {
    ...{
      id: `visit ${i}`,
      place: i,
      minutes: 60 + 15 * random.below(9),
      size: 1,
      priority: 1 + random.below(2),
    },
    windows: Array.from({ length: last - first + 1 }, (_, k) => ({
      from: (first + k) * day + 7 * hour,
      to: (first + k) * day + (morning ? 12 : 18) * hour,
    })),
    instruments: random.next() < 0.3 ? ['duct-tester'] : [],
    qualifications: random.next() < 0.15 ? ['final-rating'] : [],
    notRaters: random.next() < 0.05 ? [`rater ${random.below(raters)}`] : [],
    avoidRater: random.next() < 0.1 ? `rater ${random.below(raters)}` : null,
    ...{ wantedFrom: first * day, fixed: null, promised: null },
  };
}

function anyRater(i: number, visits: number, random: Random): PlanRater {
  return {
    id: `rater ${i}`,
    qualifications: i === 0 || random.next() < 0.6 ? ['final-rating'] : [],
    instruments: i === 0 || random.next() < 0.8 ? ['duct-tester'] : [],
    share: 1,
    days: [0, 1, 2, 3, 4].map((each) => ({
      ...{ day: each, from: each * day + 8 * hour, to: each * day + 17 * hour, room: null },
      ...{ startPlace: visits + i, endPlace: visits + i },
      pause: {
        minutes: 30,
        startsWithin: { from: each * day + 11.5 * hour, to: each * day + 13.5 * hour },
      },
    })),
  };
}
