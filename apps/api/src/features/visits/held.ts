import type { Db } from '../../kernel/database/database.ts';
import { AppError, found } from '../../kernel/problems/app-error.ts';
import { visitParts, type VisitRow } from './present.ts';

/**
 * A booked visit and its house, held until this transaction ends, in the order in which a rater's first
 * reading holds them: a visit is not moved while it begins.
 */
export async function heldBooked(db: Db, id: string): Promise<VisitRow> {
  await db.$queryRaw`SELECT v.id FROM visits v JOIN houses h ON h.id = v.house_id WHERE v.id = ${id}::uuid FOR UPDATE`;
  const visit = found(await db.visit.findUnique({ where: { id }, include: visitParts }), 'visit');
  if (visit.state !== 'booked') throw new AppError('visit-closed', stateWords[visit.state]);
  return visit;
}

const stateWords = {
  in_progress: 'The visit has begun.',
  submitted: 'The visit was submitted.',
  not_ready: 'The house was not ready; the visit is over.',
  cancelled: 'The visit was cancelled.',
} as const;
