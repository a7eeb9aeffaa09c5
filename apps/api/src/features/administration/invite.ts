import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import type { Db } from '../../kernel/database/database.ts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { AppError, found, invalid } from '../../kernel/problems/app-error.ts';
import { record } from '../../kernel/records/events.ts';
import { mailAccessLink } from '../session/index.ts';
import { presentUser, withSessions } from './present.ts';

export async function checkBuilder(db: Db, builderId: string | null): Promise<void> {
  if (builderId !== null && !(await db.builder.findUnique({ where: { id: builderId } })))
    throw invalid('builderId', 'There is no such builder');
}

export function inviteUsers(app: FastifyInstance): void {
  const { publicUrl } = app.config;

  implementInTransaction(app, routes.administration.invite, async ({ db, actor, body, request }) => {
    const { name, email, role } = body;
    const builderId = body.builderId ?? null;
    await checkBuilder(db, builderId);
    const row = await db.user.create({ data: { name, email, role, builderId }, include: withSessions() });
    await mailAccessLink(db, publicUrl, row, 'invitation');
    await record(db, actor, request.id, {
      action: 'user invited',
      recordType: 'user',
      recordId: row.id,
      after: { name, email, role, builderId },
    });
    return presentUser(row);
  });

  implementInTransaction(app, routes.administration.inviteAgain, async ({ db, actor, params, request }) => {
    const user = found(await db.user.findUnique({ where: params }), 'user');
    if (!user.active) throw new AppError('conflict', 'This user is deactivated; activate the account first.');
    const purpose = user.passwordHash === null ? 'invitation' : 'password_reset';
    await mailAccessLink(db, publicUrl, user, purpose);
    await record(db, actor, request.id, {
      action: purpose === 'invitation' ? 'user invited' : 'password reset asked',
      recordType: 'user',
      recordId: user.id,
    });
    return { ok: true as const };
  });
}
