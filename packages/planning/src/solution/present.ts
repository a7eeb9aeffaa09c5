import type { Core } from '../solver/core.ts';
import type { Routes } from '../solver/routes.ts';
import type { Plan } from './plan.ts';
import { reasons } from './reasons.ts';
import { timetable } from './timetable.ts';

/** A plan of the search as its users read it. */
export function presented(routes: Routes): Omit<Plan, 'closed' | 'iterations'> {
  const days = timetable(routes);
  const sum = (of: (day: (typeof days)[number]) => number) => days.reduce((total, day) => total + of(day), 0);
  return {
    days,
    unplaced: reasons(routes).filter(({ visit }) => !isFixed(routes.core, visit)),
    cost: Math.round(routes.cost * 1e6) / 1e6,
    driveMinutes: sum(({ driveMinutes }) => driveMinutes),
    driveDistance: sum(({ driveDistance }) => driveDistance),
  };
}

const isFixed = ({ problem }: Core, id: string) =>
  problem.visits.some((each) => each.id === id && each.fixed);
