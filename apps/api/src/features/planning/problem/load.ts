import type { VisitNeeds } from '@countercheck/assessment';
import type { Prisma, VisitKind } from '@countercheck/prisma';
import type { Db } from '../../../kernel/database/database.ts';
import { isoDate } from '../../assessment/index.ts';
import { daysOff, firstRaters, heldRaters, type HeldRater, type TimeOff } from '../../booking-rules/index.ts';

export interface AskedPlan {
  fromOn: Date;
  toOn: Date;
  replan: boolean;
  raterIds: string[];
  awayRaterIds: string[];
  requestIds: string[] | null;
}

const houseParts = {
  select: {
    id: true,
    address: true,
    latitude: true,
    longitude: true,
    community: { select: { latitude: true, longitude: true } },
  },
} satisfies Prisma.HouseDefaultArgs;
type HousePlace = Prisma.HouseGetPayload<typeof houseParts>;

const raterParts = {
  profile: true,
  carries: {
    where: { active: true },
    select: { kind: true, calibrations: { select: { calibratedOn: true, dueOn: true } } },
  },
} satisfies Prisma.UserInclude;
export type LoadedRater = Prisma.UserGetPayload<{ include: typeof raterParts }>;

/** A visit that is wanted or booked, with what a plan has to know of it. */
export interface LoadedVisit {
  requestId: string | null;
  visitId: string | null;
  house: HousePlace;
  kind: VisitKind;
  minutes: number;
  needs: VisitNeeds;
  earliestOn: Date | null;
  deadlineOn: Date | null;
  /** times of day between which somebody can be there; null = all day */
  open: { from: string; to: string } | null;
  avoidRaterId: string | null;
  /** who may not go, because a re-test of one's own work is none */
  notRaterIds: string[];
  booked: { raterId: string; rater: string; startsAt: Date; endsAt: Date; begun: boolean } | null;
}

export interface Loaded {
  company: Prisma.CompanyGetPayload<true>;
  raters: LoadedRater[];
  held: HeldRater[];
  daysOff: TimeOff[];
  visits: LoadedVisit[];
  /** when somebody measures in a house for which a visit is asked */
  taken: { houseId: string; startsAt: Date; endsAt: Date }[];
}

const hoursOf = ({ openFrom, openTo }: { openFrom: string | null; openTo: string | null }) =>
  openFrom !== null && openTo !== null ? { from: openFrom, to: openTo } : null;
const noNeeds: VisitNeeds = { instruments: [], qualifications: [] };

/** Everything that a plan rests on, as it stands now. `span` is the instants between which visits begin. */
export async function load(db: Db, asked: AskedPlan, span: { from: Date; to: Date }): Promise<Loaded> {
  const { requestIds, raterIds, awayRaterIds } = asked;
  const requests = await db.visitRequest.findMany({
    where: {
      state: 'open',
      ...(requestIds ? { id: { in: requestIds } } : { earliestOn: { lte: asked.toOn } }),
    },
    include: { house: houseParts },
    orderBy: [{ askedAt: 'asc' }, { id: 'asc' }],
  });
  const booked = await db.visit.findMany({
    where: {
      raterId: { in: [...raterIds, ...awayRaterIds] },
      state: { in: ['booked', 'in_progress', 'submitted'] },
      startsAt: { gte: span.from, lt: span.to },
    },
    include: { house: houseParts, rater: { select: { name: true } }, requests: true },
    orderBy: [{ startsAt: 'asc' }, { id: 'asc' }],
  });
  const visits = [
    ...requests.map((row): LoadedVisit => ({
      ...{ requestId: row.id, visitId: null, house: row.house, kind: row.kind, minutes: row.minutes },
      ...{
        needs: row.needs as unknown as VisitNeeds,
        earliestOn: row.earliestOn,
        deadlineOn: row.deadlineOn,
      },
      open: hoursOf(row),
      ...{ avoidRaterId: row.avoidRaterId, notRaterIds: [], booked: null },
    })),
    ...booked.map((row): LoadedVisit => {
      const [request] = row.requests;
      return {
        ...{ requestId: null, visitId: row.id, house: row.house, kind: row.kind },
        minutes: Math.round((row.endsAt.getTime() - row.startsAt.getTime()) / 60_000),
        needs: request ? (request.needs as unknown as VisitNeeds) : noNeeds,
        earliestOn: request?.earliestOn ?? null,
        deadlineOn: request?.deadlineOn ?? null,
        open: request ? hoursOf(request) : null,
        ...{ avoidRaterId: request?.avoidRaterId ?? null, notRaterIds: [] },
        booked: {
          ...{ raterId: row.raterId, rater: row.rater.name, startsAt: row.startsAt, endsAt: row.endsAt },
          begun: row.state !== 'booked',
        },
      };
    }),
  ];
  await nameWhoMeasured(db, visits);
  return {
    company: await db.company.findUniqueOrThrow({ where: { id: 1 } }),
    raters: await db.user.findMany({
      where: { id: { in: [...raterIds, ...awayRaterIds] }, role: 'rater', active: true },
      include: raterParts,
      orderBy: [{ name: 'asc' }, { id: 'asc' }],
    }),
    held: await heldRaters(db, { to: span.to }),
    daysOff: await daysOff(db, { from: isoDate(asked.fromOn), to: isoDate(asked.toOn) }),
    visits,
    taken: await db.visit.findMany({
      where: {
        houseId: { in: requests.map(({ houseId }) => houseId) },
        kind: { not: 'quality' },
        state: { in: ['booked', 'in_progress'] },
        ...{ startsAt: { lt: span.to }, endsAt: { gt: span.from } },
      },
      select: { houseId: true, startsAt: true, endsAt: true },
    }),
  };
}

/** Whoever measured in a house should not be the one who looks again, and may not be at a quality visit. */
async function nameWhoMeasured(db: Db, visits: LoadedVisit[]): Promise<void> {
  const again = visits.filter(({ kind }) => kind === 'reinspection' || kind === 'quality');
  const houseIds = [...new Set(again.map(({ house }) => house.id))];
  const first = await firstRaters(db, houseIds);
  const been = await db.visit.findMany({
    where: { houseId: { in: houseIds }, kind: { not: 'quality' }, state: { not: 'cancelled' } },
    select: { houseId: true, raterId: true },
    distinct: ['houseId', 'raterId'],
  });
  for (const visit of again) {
    visit.avoidRaterId ??= first.get(visit.house.id) ?? null;
    if (visit.kind !== 'quality') continue;
    const own = been.filter(({ houseId }) => houseId === visit.house.id).map(({ raterId }) => raterId);
    visit.notRaterIds = [...new Set([...own, ...(visit.avoidRaterId ? [visit.avoidRaterId] : [])])];
  }
}
