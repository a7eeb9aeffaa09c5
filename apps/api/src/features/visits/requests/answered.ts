import type { VisitKind, VisitRequest } from '@countercheck/prisma';
import type { Actor } from '../../../kernel/actor.ts';
import type { Db } from '../../../kernel/database/database.ts';
import { AppError } from '../../../kernel/problems/app-error.ts';
import { openVisitRequest } from './open.ts';

/**
 * The request that a booking answers: the one named, or the one of this kind that is open for the house, or else one
 * that is made now, so that a visit that falls away is not forgotten. Booked already, when another visit has it.
 */
export async function requestAnswered(
  db: Db,
  actor: Actor,
  requestId: string | null,
  { houseId, kind, id }: { houseId: string; kind: VisitKind; id: string | null },
): Promise<VisitRequest> {
  const open = await db.visitRequest.findFirst({
    where: { houseId, kind, state: 'open', ...(id ? { id } : {}) },
    orderBy: [{ askedAt: 'asc' }, { id: 'asc' }],
  });
  if (open) return open;
  if (id !== null) throw new AppError('conflict', 'This request was booked or withdrawn meanwhile.');
  return openVisitRequest(db, actor, requestId, { houseId, kind, source: 'office' });
}
