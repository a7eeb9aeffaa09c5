import type { FastifyInstance } from 'fastify';
import { routes, type Role } from '@countercheck/contracts';
import type { User } from '@countercheck/prisma';
import type { Db } from '../../kernel/database/database.ts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { AppError, found, invalid } from '../../kernel/problems/app-error.ts';
import { record } from '../../kernel/records/events.ts';
import { endSessionsOf } from '../session/index.ts';
import { checkBuilder } from './invite.ts';
import { presentUser, withSessions } from './present.ts';

interface Changes {
  name?: string | undefined;
  role?: Role | undefined;
  builderId?: string | null | undefined;
  active?: boolean | undefined;
}

/** The row as it would be; a user who is no longer a builder's leaves that builder. */
function changed(user: User, body: Changes) {
  const role = body.role ?? user.role;
  const builderId = role === 'builder' ? (body.builderId ?? user.builderId) : null;
  if (role === 'builder' && builderId === null)
    throw invalid('builderId', 'A builder user belongs to a builder');
  if (role !== 'builder' && body.builderId)
    throw invalid('builderId', 'Only a builder user belongs to a builder');
  return { name: body.name ?? user.name, role, builderId, active: body.active ?? user.active };
}

/** Somebody must be left who can sign in and give the right back. Two changes at once wait for each other. */
async function keepOneAdministrator(
  db: Db,
  user: User,
  next: { role: Role; active: boolean },
): Promise<void> {
  const stays = next.role === 'administrator' && next.active;
  if (user.role !== 'administrator' || !user.active || stays) return;
  const able = await db.$queryRaw<{ id: string }[]>`SELECT id FROM users
    WHERE role = 'administrator' AND active AND password_hash IS NOT NULL ORDER BY id FOR UPDATE`;
  if (!able.some(({ id }) => id !== user.id))
    throw new AppError('conflict', 'This is the last administrator who can sign in.');
}

export function changeUsers(app: FastifyInstance): void {
  implementInTransaction(
    app,
    routes.administration.changeUser,
    async ({ db, actor, params, body, request }) => {
      const user = found(await db.user.findUnique({ where: params }), 'user');
      const next = changed(user, body);
      if (next.builderId !== user.builderId) await checkBuilder(db, next.builderId);
      await keepOneAdministrator(db, user, next);
      if (user.active && !next.active) {
        await endSessionsOf(db, user.id);
        await db.accessToken.deleteMany({ where: { userId: user.id, usedAt: null } });
      }
      const row = await db.user.update({ where: params, data: next, include: withSessions() });
      const { name, role, builderId, active } = user;
      await record(db, actor, request.id, {
        action: 'user changed',
        recordType: 'user',
        recordId: user.id,
        before: { name, role, builderId, active },
        after: next,
      });
      return presentUser(row);
    },
  );
}
