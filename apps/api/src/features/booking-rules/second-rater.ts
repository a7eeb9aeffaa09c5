import type { VisitKind } from '@countercheck/prisma';
import type { Actor } from '../../kernel/actor.ts';
import type { Db } from '../../kernel/database/database.ts';
import { AppError } from '../../kernel/problems/app-error.ts';
import { record } from '../../kernel/records/events.ts';
import { firstRaters } from './first-rater.ts';

interface BookedVisit {
  id: string;
  houseId: string;
  raterId: string;
  startsAt: Date;
}

/** Whoever measured in the house before, in a visit that was not a re-test itself. */
async function measuredHere(
  db: Db,
  { houseId, raterId }: Pick<BookedVisit, 'houseId' | 'raterId'>,
): Promise<boolean> {
  const first = { kind: { not: 'quality' as const } };
  const readings = await db.reading.count({ where: { houseId, takenById: raterId, visit: first } });
  if (readings > 0) return true;
  return (await db.visit.count({ where: { houseId, raterId, ...first, state: { not: 'cancelled' } } })) > 0;
}

/** Refuses to have a rater measure his own work again. */
export async function refuseFirstRater(
  db: Db,
  visit: Pick<BookedVisit, 'houseId' | 'raterId'>,
): Promise<void> {
  if (await measuredHere(db, visit))
    throw new AppError('second-rater-needed', 'This rater measured in the house himself.');
}

/**
 * Refuses a first measurement, or a reinspection, by somebody who is about to measure the house a second time: he would
 * be compared with himself.
 */
export async function refuseMeasuringTwice(
  db: Db,
  visit: Pick<BookedVisit, 'houseId' | 'raterId'> & { kind: VisitKind },
): Promise<void> {
  if (visit.kind === 'quality') return;
  const { houseId, raterId } = visit;
  const again = await db.visit.count({
    where: { houseId, raterId, kind: 'quality', state: { in: ['booked', 'in_progress'] } },
  });
  if (again > 0)
    throw new AppError(
      'second-rater-needed',
      'This rater is booked to measure the house a second time. Give one of the two visits to another.',
    );
}

/**
 * Gives the visit the re-test that it was asked for, or the one that waits in its house, due first. Without an order a re-test of
 * what was measured there is opened; in a house where nothing was measured yet there is none, until there is.
 */
export async function takeUpRetest(
  db: Db,
  actor: Actor,
  requestId: string | null,
  visit: BookedVisit,
  wanted: string | null = null,
): Promise<void> {
  await refuseFirstRater(db, visit);
  const { id: visitId, houseId } = visit;
  const waiting = await db.retest.findFirst({
    where: { houseId, state: 'ordered', ...(wanted === null ? {} : { id: wanted }) },
    orderBy: [{ dueOn: 'asc' }, { id: 'asc' }],
  });
  const raterId = waiting?.raterId ?? (await firstRaters(db, [houseId])).get(houseId);
  if (raterId === undefined) return;
  const booked = { state: 'booked' as const, visitId };
  const row = waiting
    ? await db.retest.update({ where: { id: waiting.id }, data: booked })
    : await db.retest.create({
        data: { ...booked, houseId, raterId, source: 'manual', dueOn: visit.startsAt, ...by(actor) },
      });
  await record(db, actor, requestId, {
    action: 're-test booked',
    recordType: 're-test',
    recordId: row.id,
    houseId,
    ...(waiting ? { before: { state: waiting.state } } : {}),
    after: { state: row.state, visitId, raterId },
  });
}

const by = (actor: Actor) => ({
  orderedById: actor.kind === 'user' ? actor.id : null,
  orderedBy: actor.kind === 'nobody' ? '' : actor.name,
});

/** A visit that falls away leaves its re-test ordered, as before. */
export async function giveRetestBack(
  db: Db,
  actor: Actor,
  requestId: string | null,
  visit: { id: string; houseId: string },
): Promise<void> {
  const booked = await db.retest.findFirst({ where: { visitId: visit.id, state: 'booked' } });
  if (!booked) return;
  await db.retest.update({ where: { id: booked.id }, data: { state: 'ordered', visitId: null } });
  await record(db, actor, requestId, {
    action: 're-test released from its visit',
    recordType: 're-test',
    recordId: booked.id,
    houseId: visit.houseId,
    before: { state: 'booked', visitId: visit.id },
    after: { state: 'ordered' },
  });
}
