import type { VisitState } from '@countercheck/prisma';
import type { Db } from '../../../kernel/database/database.ts';

/** Brings the request that a visit was booked for to where the visit stands; called wherever a visit's state changes. */
export async function followVisit(db: Db, visitId: string, state: VisitState): Promise<void> {
  const where = { visitId, state: { in: ['booked' as const, 'done' as const] } };
  if (state === 'cancelled' || state === 'not_ready')
    await db.visitRequest.updateMany({ where, data: { state: 'open', visitId: null } });
  else if (state === 'submitted') await db.visitRequest.updateMany({ where, data: { state: 'done' } });
  else await db.visitRequest.updateMany({ where, data: { state: 'booked' } });
}
