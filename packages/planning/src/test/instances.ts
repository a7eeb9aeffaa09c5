import { distanceFirst, emptyTravel, type PlanProblem } from '../index.ts';

/** A published instance as it stands in `packages/planning/instances`. */
export interface Instance {
  name: string;
  source: string;
  capacity: number;
  service: number;
  bestKnown: Record<string, { vehicles: number; distance: number }>;
  /** x, y, demand, earliest and latest start; the depot first */
  rows: [number, number, number, number, number][];
}

export const instanceNames = [
  ...['c101', 'c201', 'r101', 'r105', 'r201', 'r205'],
  ...['rc101', 'rc105', 'rc201', 'rc205'],
];
export const instanceSizes = [25, 50, 100];

/**
 * The first customers of an instance as a planning problem, in tenths, so that all figures are whole: one day,
 * the vehicles as raters, the depot as the office. There are as many vehicles as anybody could want, because
 * the convention is distance first.
 */
export function instanceProblem({ rows, service, capacity }: Instance, customers: number): PlanProblem {
  const used = rows.slice(0, customers + 1);
  const travel = emptyTravel(used.length);
  used.forEach(([x, y], from) =>
    used.forEach(([u, v], to) => {
      const tenths = Math.floor(10 * Math.hypot(x - u, y - v) + 1e-9);
      travel.distance[from * used.length + to] = travel.minutes[from * used.length + to] = tenths;
    }),
  );
  const closes = 10 * rows[0]![4];
  return {
    visits: used.slice(1).map(([, , demand, ready, due], i) => ({
      id: `customer ${i + 1}`,
      ...{ place: i + 1, minutes: 10 * service, size: demand, priority: 1, wantedFrom: null },
      windows: [{ from: 10 * ready, to: 10 * (due + service) }],
      ...{
        instruments: [],
        qualifications: [],
        notRaters: [],
        avoidRater: null,
        fixed: null,
        promised: null,
      },
    })),
    raters: Array.from({ length: Math.min(customers, 30) }, (_, i) => ({
      id: `vehicle ${i + 1}`,
      ...{ qualifications: [], instruments: [], share: 0 },
      days: [{ day: 0, from: 0, to: closes, startPlace: 0, endPlace: 0, pause: null, room: capacity }],
    })),
    ...{ travel, weights: distanceFirst, startStep: 0 },
  };
}
