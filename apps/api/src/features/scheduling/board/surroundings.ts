import { addDays } from 'date-fns';
import type { Prisma } from '@countercheck/prisma';
import type { Db } from '../../../kernel/database/database.ts';
import { dayAt, isoDate } from '../../assessment/index.ts';
import { daysOff, wholePlace } from '../../booking-rules/index.ts';
import { visitParts } from '../../visits/index.ts';
import { loadProfiles } from '../profiles/load.ts';
import { presentRequest, requestParts } from '../requests/present.ts';
import type { Place, Surroundings, WarnedInstrument, WarnedVisit } from '../warnings/visit.ts';

export const coordinates = {
  latitude: true,
  longitude: true,
  community: { select: { name: true, latitude: true, longitude: true } },
} satisfies Prisma.HouseSelect;
const boardParts = {
  ...visitParts,
  house: { select: { ...visitParts.house.select, ...coordinates } },
  instruments: { select: { instrumentId: true } },
  requests: { include: requestParts },
} satisfies Prisma.VisitInclude;
export type BoardRow = Prisma.VisitGetPayload<{ include: typeof boardParts }>;

type Placed = Prisma.HouseGetPayload<{ select: typeof coordinates }>;

/** Where a house is: its own coordinates, or those of its community. */
export function placeOf({ latitude, longitude, community }: Placed): Place | null {
  if (latitude !== null && longitude !== null) return { latitude, longitude };
  if (community.latitude === null || community.longitude === null) return null;
  return { latitude: community.latitude, longitude: community.longitude };
}

export function warned(row: BoardRow): WarnedVisit {
  const [request] = row.requests;
  return {
    ...{ id: row.id, raterId: row.raterId, kind: row.kind, address: row.house.address },
    place: placeOf(row.house),
    ...{ startsAt: row.startsAt, endsAt: row.endsAt },
    request: request ? presentRequest(request) : null,
    avoidRater: request?.avoidRater ?? null,
    instrumentIds: row.instruments.map(({ instrumentId }) => instrumentId),
  };
}

async function loadInstruments(db: Db): Promise<Map<string, WarnedInstrument>> {
  const rows = await db.instrument.findMany({
    where: { active: true },
    include: { calibrations: { select: { calibratedOn: true, dueOn: true } } },
  });
  return new Map(
    rows.map(({ id, kind, label, calibrations }) => [
      id,
      {
        ...{ id, kind, label },
        calibrations: calibrations.map((each) => ({
          on: isoDate(each.calibratedOn),
          due: isoDate(each.dueOn),
        })),
      },
    ]),
  );
}

/** The visits that begin in a span, those that fell away left out, and all that they are held against. */
export async function loadSurroundings(
  db: Db,
  from: Date,
  to: Date,
): Promise<{ rows: BoardRow[]; around: Surroundings }> {
  const rows = await db.visit.findMany({
    where: {
      // Neighbours of the first and the last day count too.
      startsAt: { gte: addDays(from, -1), lt: addDays(to, 1) },
      state: { notIn: ['cancelled', 'not_ready'] },
    },
    include: boardParts,
    orderBy: [{ startsAt: 'asc' }, { id: 'asc' }],
  });
  const company = await db.company.findUniqueOrThrow({ where: { id: 1 } });
  const profiles = await loadProfiles(db, to);
  return {
    rows: rows.filter(({ startsAt }) => startsAt >= from && startsAt < to),
    around: {
      timezone: company.timezone,
      office: wholePlace(company.officeLatitude, company.officeLongitude),
      travel: { circuity: company.travelCircuity, speed: company.travelSpeed },
      profiles: new Map(profiles.map((profile) => [profile.rater.id, profile])),
      instruments: await loadInstruments(db),
      daysOff: await daysOff(db, { from: dayAt(from, company.timezone), to: dayAt(to, company.timezone) }),
      visits: rows.map(warned),
    },
  };
}
