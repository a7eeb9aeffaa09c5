import type { VisitRequest } from '@countercheck/prisma';
import type { Actor } from '../../../kernel/actor.ts';
import { asSystem } from '../../../kernel/database/as-system.ts';
import type { Db } from '../../../kernel/database/database.ts';
import { AppError, found } from '../../../kernel/problems/app-error.ts';

const stateWords = {
  booked: 'A visit is booked for this request; move or cancel the visit.',
  done: 'The visit was made.',
  withdrawn: 'The request was withdrawn.',
} as const;

/** A request that the actor sees and that is still open, held until this transaction ends. */
export async function heldOpen(db: Db, actor: Actor, id: string): Promise<VisitRequest> {
  const row = await heldRequest(db, actor, id);
  if (row.state !== 'open') throw new AppError('conflict', stateWords[row.state]);
  return row;
}

/** A request that the actor sees, held until this transaction ends: locking it is the service's to do. */
export async function heldRequest(db: Db, actor: Actor, id: string): Promise<VisitRequest> {
  found(await db.visitRequest.findUnique({ where: { id }, select: { id: true } }), 'request');
  await asSystem(
    db,
    actor,
    () => db.$queryRaw`SELECT id FROM visit_requests WHERE id = ${id}::uuid FOR UPDATE`,
  );
  return db.visitRequest.findUniqueOrThrow({ where: { id } });
}
