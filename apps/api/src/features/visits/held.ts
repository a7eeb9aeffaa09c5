import type { Db } from '../../kernel/database/database.ts';
import { AppError, found } from '../../kernel/problems/app-error.ts';
import { visitParts, type VisitRow } from './present.ts';

/**
 * A booked visit and its house, held until this transaction ends, in the order in which a rater's first
 * reading holds them: a visit is not moved while it begins.
 */
export async function heldBooked(db: Db, id: string): Promise<VisitRow> {
  const visit = await held(db, id);
  if (visit.state !== 'booked') throw new AppError('visit-closed', stateWords[visit.state]);
  return visit;
}

async function held(db: Db, id: string): Promise<VisitRow> {
  await db.$queryRaw`SELECT v.id FROM visits v JOIN houses h ON h.id = v.house_id WHERE v.id = ${id}::uuid FOR UPDATE`;
  return found(await db.visit.findUnique({ where: { id }, include: visitParts }), 'visit');
}

/**
 * A visit that can be moved, held as by `heldBooked`. One that has begun stays with its rater, whose phone may still
 * hold readings of it; only when he no longer works here can another finish it. What was read stays his who read it.
 */
export async function heldMovable(db: Db, id: string, raterId: string | undefined): Promise<VisitRow> {
  const visit = await held(db, id);
  if (visit.state === 'booked') return visit;
  if (visit.state !== 'in_progress' || raterId === undefined || raterId === visit.raterId)
    throw new AppError('visit-closed', stateWords[visit.state]);
  const rater = await db.user.findUniqueOrThrow({ where: { id: visit.raterId } });
  if (rater.active && rater.role === 'rater')
    throw new AppError(
      'visit-closed',
      `The visit has begun, and ${rater.name} works on it. Another can finish it once ${rater.name} no longer works here.`,
    );
  return visit;
}

const stateWords = {
  in_progress: 'The visit has begun.',
  submitted: 'The visit was submitted.',
  not_ready: 'The house was not ready; the visit is over.',
  cancelled: 'The visit was cancelled.',
} as const;
