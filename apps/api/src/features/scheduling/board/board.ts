import { visitEffort } from '@countercheck/assessment';
import { addDays } from 'date-fns';
import type { FastifyInstance } from 'fastify';
import { routes, type BoardVisit } from '@countercheck/contracts';
import { implementInTransaction } from '../../../kernel/http/implement.ts';
import { found } from '../../../kernel/problems/app-error.ts';
import { assessHouse, companyOptions, dayAt } from '../../assessment/index.ts';
import { firstRaters } from '../../booking-rules/index.ts';
import { presentVisit, startOfDay } from '../../visits/index.ts';
import { presentRequest, requestParts } from '../requests/present.ts';
import { visitWarnings } from '../warnings/of-visit.ts';
import { instrumentsOf, type Surroundings, type WarnedVisit } from '../warnings/visit.ts';
import { coordinates, loadSurroundings, placeOf, warned, type BoardRow } from './surroundings.ts';

export function presentBoardVisit(row: BoardRow, around: Surroundings): BoardVisit {
  const visit = warned(row);
  const closed = row.state === 'submitted';
  return {
    visit: presentVisit(row),
    minutesNeeded: visit.request?.minutes ?? null,
    instruments: instrumentsOf(visit, around).map(({ id, label, kind }) => ({ id, label, kind })),
    // What is done is not doubtful any more.
    warnings: closed ? [] : visitWarnings(visit, around),
  };
}

export function showBoard(app: FastifyInstance): void {
  implementInTransaction(app, routes.scheduling.board, async ({ db, query }) => {
    const { timezone } = await companyOptions(db);
    const from = startOfDay(query.from, timezone);
    const { rows, around } = await loadSurroundings(db, from, startOfDay(query.from, timezone, 7));
    return {
      raters: [...around.profiles.values()],
      visits: rows.map((row) => presentBoardVisit(row, around)),
      daysOff: around.daysOff.map((each) => ({ ...each })),
    };
  });

  implementInTransaction(app, routes.scheduling.tryVisit, async ({ db, query }) => {
    const { houseId, kind, raterId, visitId } = query;
    const [startsAt, endsAt] = [new Date(query.startsAt), new Date(query.endsAt)];
    const house = found(
      await db.house.findUnique({ where: { id: houseId }, select: { address: true, ...coordinates } }),
      'house',
    );
    const asked = await db.visitRequest.findFirst({
      where: query.requestId
        ? { id: query.requestId, houseId }
        : visitId
          ? { visitId, houseId }
          : { houseId, kind, state: 'open' },
      include: requestParts,
    });
    const { timezone } = await companyOptions(db);
    const day = startOfDay(dayAt(startsAt, timezone), timezone);
    const { around } = await loadSurroundings(db, day, addDays(day, 1));
    const moved = around.visits.find(({ id }) => id === visitId);
    const visit: WarnedVisit = {
      ...{ id: visitId ?? null, raterId, kind, address: house.address, place: placeOf(house) },
      ...{ startsAt, endsAt },
      request: asked ? presentRequest(asked) : await effortAlone(db, houseId, kind, timezone),
      avoidRater: asked ? asked.avoidRater : await whoseWork(db, houseId, kind),
      // Another rater brings his own kit.
      instrumentIds: moved?.raterId === raterId ? moved.instrumentIds : [],
    };
    return visitWarnings(visit, around);
  });
}

/** Whose work a visit that nobody asked for would look at again. */
async function whoseWork(
  db: Parameters<typeof assessHouse>[0],
  houseId: string,
  kind: WarnedVisit['kind'],
): Promise<WarnedVisit['avoidRater']> {
  if (kind !== 'reinspection' && kind !== 'quality') return null;
  const id = (await firstRaters(db, [houseId])).get(houseId);
  return id ? db.user.findUnique({ where: { id }, select: { id: true, name: true } }) : null;
}

/** A visit that nobody asked for takes as long and needs as much as one that was. */
async function effortAlone(
  db: Parameters<typeof assessHouse>[0],
  houseId: string,
  kind: WarnedVisit['kind'],
  timezone: string,
): Promise<WarnedVisit['request']> {
  const { scorecard, file } = await assessHouse(db, houseId);
  const { minutes, instruments, qualifications } = visitEffort(scorecard, file, kind);
  return {
    ...{ minutes, needs: { instruments, qualifications }, deadlineOn: null, deadlineWhy: null },
    ...{ openFrom: null, openTo: null, earliestOn: dayAt(new Date(0), timezone) },
    readiness: { points: [], figuresSignedAt: null, ready: false },
  };
}
