import type { FastifyInstance } from 'fastify';
import { setTimeout as pause } from 'node:timers/promises';
import { routes } from '@countercheck/contracts';
import { system, type Actor } from '../../kernel/actor.ts';
import { implement } from '../../kernel/http/implement.ts';
import { AppError } from '../../kernel/problems/app-error.ts';
import { record } from '../../kernel/records/events.ts';
import { mailAccessLink, readAccessLink } from './access-links.ts';
import { refuseWeakPassword } from './password-rules.ts';
import { hashPassword } from './passwords.ts';
import { endSessionsOf } from './store.ts';
import { countAttempt } from './throttle.ts';

/** Longer than either way through takes, so that the time does not tell whether the account exists. */
const answerAfterMs = 250;

export function setPassword(app: FastifyInstance): void {
  implement(app, routes.session.askReset, async ({ body, database, request }) => {
    const answerAt = pause(answerAfterMs);
    await countAttempt(database, [
      { key: `reset ${body.email} ${request.ip}`, attempts: 5 },
      { key: `reset ${request.ip}`, attempts: 30 },
    ]);
    await database.as(system, async (db) => {
      const user = await db.user.findUnique({ where: { email: body.email } });
      if (!user?.active) return;
      const purpose = user.passwordHash === null ? 'invitation' : 'password_reset';
      await mailAccessLink(db, app.config.publicUrl, user, purpose);
      await record(db, { kind: 'nobody' }, request.id, {
        action: 'password reset asked',
        recordType: 'user',
        recordId: user.id,
        after: { address: request.ip },
      });
    });
    await answerAt;
    return { ok: true as const };
  });

  implement(app, routes.session.accessLink, ({ params, database }) =>
    database.as(system, async (db) => {
      const { purpose, user, expiresAt } = await readAccessLink(db, params.token);
      return { purpose, name: user.name, email: user.email, expiresAt: expiresAt.toISOString() };
    }),
  );

  implement(app, routes.session.useAccessLink, async ({ params, body, database, request }) => {
    await countAttempt(database, [{ key: `access-link ${request.ip}`, attempts: 30 }]);
    const { user } = await database.as(system, async (db) => {
      const link = await readAccessLink(db, params.token);
      await refuseWeakPassword(db, body.password, link.user);
      return link;
    });
    const passwordHash = await hashPassword(body.password);
    await database.as(system, async (db) => {
      const link = await readAccessLink(db, params.token);
      // Hashing takes a while: somebody may have used the link meanwhile, and only one may.
      const taken = await db.accessToken.updateMany({
        where: { id: link.id, usedAt: null },
        data: { usedAt: new Date() },
      });
      if (taken.count !== 1) throw new AppError('link-used');
      await db.user.update({ where: { id: user.id }, data: { passwordHash } });
      await endSessionsOf(db, user.id);
      const { id, name, role, builderId } = user;
      const actor: Actor = { kind: 'user', id, name, role, builderId };
      await record(db, actor, request.id, {
        action: 'password changed',
        recordType: 'user',
        recordId: id,
        reason: link.purpose === 'invitation' ? 'invitation accepted' : 'password reset',
      });
    });
    return { ok: true as const };
  });
}
