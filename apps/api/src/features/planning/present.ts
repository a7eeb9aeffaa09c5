import type { PlanDay, PlanStop, WeekPlan, WeekPlanSummary } from '@countercheck/contracts';
import type { Prisma } from '@countercheck/prisma';
import type { Db } from '../../kernel/database/database.ts';
import { presentRun } from '../../kernel/runs/ask.ts';
import { companyOptions, dayAt, isoDate } from '../assessment/index.ts';
import { visitKey } from './problem/visits.ts';
import type { StoredResult } from './store.ts';

export const planParts = {
  run: true,
  visits: { select: { state: true } },
} satisfies Prisma.WeekPlanInclude;
export type PlanRow = Prisma.WeekPlanGetPayload<{ include: typeof planParts }>;

const stopParts = {
  house: { select: { address: true, lot: true, community: { select: { name: true } } } },
} satisfies Prisma.PlannedVisitInclude;
type StopRow = Prisma.PlannedVisitGetPayload<{ include: typeof stopParts }>;

const resultOf = ({ result }: PlanRow) => result as unknown as StoredResult | null;

export function presentSummary(row: PlanRow): WeekPlanSummary {
  const result = resultOf(row);
  const count = (state: string) => row.visits.filter((each) => each.state === state).length;
  return {
    ...presentRun(row.run),
    ...{ from: isoDate(row.fromOn), to: isoDate(row.toOn), replan: row.replan, note: row.note },
    ...{ proposed: count('proposed'), accepted: count('accepted') },
    unplaced: result?.unplaced.length ?? null,
    driveMinutes: result?.driveMinutes ?? null,
  };
}

export async function presentPlan(db: Db, row: PlanRow): Promise<WeekPlan> {
  const result = resultOf(row);
  const { timezone } = await companyOptions(db);
  const people = await db.user.findMany({
    where: { id: { in: row.raterIds } },
    select: { id: true, name: true },
    orderBy: [{ name: 'asc' }, { id: 'asc' }],
  });
  // What a plan has found so far is no plan.
  const stops =
    row.run.state === 'done'
      ? await db.plannedVisit.findMany({
          where: { planId: row.id },
          include: stopParts,
          orderBy: [{ startsAt: 'asc' }, { id: 'asc' }],
        })
      : [];
  const dayOf = (stop: StopRow) => `${stop.raterId} ${dayAt(stop.startsAt, timezone)}`;
  const byDay = new Map<string, StopRow[]>();
  for (const stop of stops) byDay.set(dayOf(stop), [...(byDay.get(dayOf(stop)) ?? []), stop]);
  const name = (id: string) => people.find((each) => each.id === id)?.name ?? '–';
  const choiceOf = (stop: StopRow): PlanStop['choice'] => {
    const choice = stop.state === 'kept' ? undefined : result?.choices?.[visitKey(stop)];
    if (!choice) return null;
    const { able, instead } = choice;
    return { able, instead: instead && { rater: name(instead.rater), more: instead.more } };
  };
  const days = (result?.days ?? []).map(({ raterId, ...day }): PlanDay => ({
    ...day,
    rater: { id: raterId, name: name(raterId) },
    stops: (byDay.get(`${raterId} ${day.date}`) ?? []).map((stop) => ({
      ...presentStop(stop),
      choice: choiceOf(stop),
    })),
  }));
  return {
    ...presentSummary(row),
    raters: people,
    ...{
      driveKm: result?.driveKm ?? null,
      travel: typeof result?.travel === 'object' ? result.travel : null,
    },
    proved: result?.proved ?? false,
    ...{ cost: result?.cost ?? null, bound: result?.bound ?? null },
    days: days.sort((a, b) => a.date.localeCompare(b.date) || a.rater.name.localeCompare(b.rater.name)),
    unplacedVisits: result?.unplaced ?? [],
    notes: result?.notes ?? [],
  };
}

function presentStop(row: StopRow): Omit<PlanStop, 'choice'> {
  const { id, state, kind, requestId, visitId, latitude, longitude } = row;
  const { driveMinutes, driveKm, refusal, decidedBy } = row;
  const before =
    row.beforeRater && row.beforeStartsAt && row.beforeEndsAt
      ? {
          rater: row.beforeRater,
          startsAt: row.beforeStartsAt.toISOString(),
          endsAt: row.beforeEndsAt.toISOString(),
        }
      : null;
  return {
    ...{ id, state, kind, requestId, visitId, before, refusal, decidedBy, driveMinutes, driveKm },
    house: {
      ...{ id: row.houseId, address: row.house.address, lot: row.house.lot },
      ...{ community: row.house.community.name, latitude, longitude },
    },
    ...{ startsAt: row.startsAt.toISOString(), endsAt: row.endsAt.toISOString() },
  };
}
