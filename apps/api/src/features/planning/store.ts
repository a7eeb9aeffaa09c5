import { type Choice, unplacedWords, type Plan, type Unplaced } from '@countercheck/planning';
import type { Coordinates } from '@countercheck/planning';
import type { Prisma } from '@countercheck/prisma';
import type { Db } from '../../kernel/database/database.ts';
import type { Built } from './problem/build.ts';
import { isoDate } from '../assessment/index.ts';
import { dayWords, type PlanClock } from './problem/clock.ts';
import type { LoadedVisit } from './problem/load.ts';
import type { TravelSource } from './travel.ts';

/** What `week_plans.result` holds: all of a plan but its visits, which are rows. Instants are ISO texts. */
export interface StoredResult {
  days: {
    raterId: string;
    date: string;
    start: Coordinates;
    end: Coordinates;
    leavesAt: string;
    returnsAt: string;
    pause: { from: string; to: string } | null;
    driveMinutes: number;
    driveKm: number;
  }[];
  unplaced: {
    address: string;
    houseId: string;
    requestId: string | null;
    visitId: string | null;
    kind: LoadedVisit['kind'];
    why: string;
  }[];
  notes: string[];
  /** plans from before it was kept so have words */
  travel: TravelSource | string;
  /** by what the plan calls a visit; not in plans from before it was kept */
  choices?: Record<string, Pick<Choice, 'able' | 'instead'>>;
  proved: boolean;
  /** by the weights, and what no plan costs less than; plans from before these were kept have neither */
  cost?: number;
  bound?: number | null;
  driveMinutes: number;
  driveKm: number;
}

export interface FoundPlan {
  plan: Plan;
  proved: boolean;
  bound: number | null;
  choices: Choice[];
  travel: TravelSource;
}

/** In words what keeps a visit of nobody-knows-where out of every plan. */
const nowhereWords =
  'Neither the house nor its community has coordinates. Enter them at the house or the community.';
const waitingWords =
  'Another visit to this house comes first and is not booked yet. Book that one, then plan this one.';
/** Where the dates alone keep a visit out of a plan, which of them does. */
function datesWords({ earliestOn, deadlineOn }: LoadedVisit, { dates }: PlanClock): string | null {
  if (deadlineOn && isoDate(deadlineOn) < dates[0]!)
    return `Its deadline has passed before this plan begins: ${dayWords(isoDate(deadlineOn))}. Agree on a later one, or book it by hand.`;
  if (earliestOn && isoDate(earliestOn) > dates.at(-1)!)
    return `It is wanted from ${dayWords(isoDate(earliestOn))} on, after the last day of this plan.`;
  return null;
}
const named = (need: string) =>
  need
    .split('|')
    .map((each) => each.replaceAll('-', ' '))
    .join(' or ');

export function resultOf(
  built: Built,
  clock: PlanClock,
  { plan, proved, bound, choices, travel }: FoundPlan,
): StoredResult {
  const at = (minute: number) => clock.instant(minute).toISOString();
  const unplaced = (visit: LoadedVisit, why: string) => ({
    ...{ address: visit.house.address, houseId: visit.house.id },
    ...{ requestId: visit.requestId, visitId: visit.visitId, kind: visit.kind, why },
  });
  const stays = (visit: LoadedVisit) => (visit.booked ? ' It stays booked as it is.' : '');
  const closed = plan.closed.map(({ rater, day }) => {
    return `${built.names.get(rater) ?? 'A rater'}, ${dayWords(clock.dates[day]!)}: the booked visits leave too little time for the way or the break. Nothing was added to this day.`;
  });
  const beyond = costBeyond(built, plan);
  return {
    days: plan.days.map((day) => {
      const hours = built.problem.raters
        .find(({ id }) => id === day.rater)!
        .days.find((each) => each.day === day.day)!;
      return {
        ...{ raterId: day.rater, date: clock.dates[day.day]! },
        ...{ start: built.places[hours.startPlace]!, end: built.places[hours.endPlace]! },
        ...{ leavesAt: at(day.leaves), returnsAt: at(day.returns) },
        pause: day.pause && { from: at(day.pause.from), to: at(day.pause.to) },
        ...{ driveMinutes: day.driveMinutes, driveKm: day.driveDistance },
      };
    }),
    unplaced: [
      ...built.nowhere.map((visit) => unplaced(visit, nowhereWords)),
      ...built.waiting.map((visit) => unplaced(visit, waitingWords)),
      ...plan.unplaced.map((each: Unplaced) => {
        const visit = built.byKey.get(each.visit)!;
        return unplaced(visit, (datesWords(visit, clock) ?? unplacedWords(each, named)) + stays(visit));
      }),
    ],
    notes: [...built.notes, ...closed],
    choices: Object.fromEntries(choices.map(({ visit, ...choice }) => [visit, choice])),
    ...{ travel, proved, cost: plan.cost - beyond, bound: bound === null ? null : bound - beyond },
    ...{ driveMinutes: plan.driveMinutes, driveKm: plan.driveDistance },
  };
}

/** What every plan pays for booked visits that stand outside of it; it says nothing about this one. */
function costBeyond({ problem }: Built, plan: Plan): number {
  const inside = new Set(plan.days.flatMap(({ visits }) => visits.map(({ visit }) => visit)));
  return problem.visits
    .filter(({ id, fixed }) => fixed && !inside.has(id))
    .reduce((sum, { priority }) => sum + priority * problem.weights.unplaced, 0);
}

/** Writes the visits of a plan; what stays as it is booked is kept beside what is proposed. */
export async function storeVisits(
  db: Db,
  planId: string,
  built: Built,
  clock: PlanClock,
  plan: Plan,
): Promise<{ proposed: number; kept: number }> {
  const rows = plan.days.flatMap((day) =>
    day.visits.map((stop): Prisma.PlannedVisitCreateManyInput => {
      const visit = built.byKey.get(stop.visit)!;
      const place = built.places[built.problem.visits.find(({ id }) => id === stop.visit)!.place]!;
      const [startsAt, endsAt] = [clock.instant(stop.start), clock.instant(stop.end)];
      const { booked } = visit;
      const same = booked && booked.raterId === day.rater && booked.startsAt.getTime() === startsAt.getTime();
      return {
        ...{ planId, raterId: day.rater, houseId: visit.house.id, kind: visit.kind, startsAt },
        // A booked visit that does not move keeps its own end, to the second.
        endsAt: same ? booked.endsAt : endsAt,
        ...{ state: same ? ('kept' as const) : ('proposed' as const) },
        ...{ requestId: visit.requestId, visitId: visit.visitId, ...place },
        ...{ driveMinutes: stop.driveMinutes, driveKm: stop.driveDistance },
        ...(booked && !same
          ? {
              ...{ beforeRaterId: booked.raterId, beforeRater: booked.rater },
              ...{ beforeStartsAt: booked.startsAt, beforeEndsAt: booked.endsAt },
            }
          : {}),
      };
    }),
  );
  await db.plannedVisit.createMany({ data: rows });
  const kept = rows.filter(({ state }) => state === 'kept').length;
  return { kept, proposed: rows.length - kept };
}
