import type { UserActor } from '../../kernel/actor.ts';
import type { Db } from '../../kernel/database/database.ts';
import { AppError, found } from '../../kernel/problems/app-error.ts';
import { visitParts, type VisitRow } from '../visits/index.ts';

/**
 * The visit and its house, held until this transaction ends: two writes of one visit, or a write and the
 * release of its house, come one after the other.
 */
export async function heldVisit(db: Db, visitId: string): Promise<VisitRow> {
  await db.$queryRaw`SELECT v.id FROM visits v JOIN houses h ON h.id = v.house_id
    WHERE v.id = ${visitId}::uuid FOR UPDATE`;
  return found(await db.visit.findUnique({ where: { id: visitId }, include: visitParts }), 'visit');
}

/** Only the rater it was booked for works on a visit. */
export function mustBeOwn(visit: VisitRow, actor: UserActor): void {
  if (visit.raterId !== actor.id)
    throw new AppError('visit-not-yours', `It is booked for ${visit.rater.name}.`);
}

/**
 * A visit takes readings and photos until it is submitted, called off, or its house is released. A re-test is made
 * in released houses too: nothing of it enters the file.
 */
export function mustBeOpen(visit: VisitRow): void {
  if (visit.house.stage === 'released' && visit.kind !== 'quality') throw new AppError('file-sealed');
  if (visit.state !== 'booked' && visit.state !== 'in_progress') throw new AppError('visit-closed');
}
