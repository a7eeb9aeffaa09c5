import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import { system } from '../../kernel/actor.ts';
import { implement } from '../../kernel/http/implement.ts';
import { AppError } from '../../kernel/problems/app-error.ts';
import { record } from '../../kernel/records/events.ts';
import { endInBrowser, openInBrowser } from './browser.ts';
import type { SessionKeeper } from './lucia.ts';
import { passwordMatches } from './passwords.ts';
import { presentMe } from './present.ts';
import { countAttempt, forgiveAttempts, signInLimits } from './throttle.ts';

export function signIn(app: FastifyInstance, keeper: SessionKeeper): void {
  implement(app, routes.session.signIn, async ({ body, database, request, reply }) => {
    const limits = signInLimits(body.email, request.ip);
    await countAttempt(database, limits);
    const user = await database.as(system, (db) => db.user.findUnique({ where: { email: body.email } }));
    const matches = await passwordMatches(user?.passwordHash, body.password);
    if (!user || !matches || !user.active) {
      await database.as(system, (db) =>
        record(db, { kind: 'nobody' }, request.id, {
          action: 'sign-in refused',
          recordType: 'user',
          recordId: user?.id ?? 'unknown',
          after: { email: body.email, address: request.ip },
        }),
      );
      throw new AppError('wrong-credentials');
    }
    await forgiveAttempts(database, limits);
    const complete = user.totpConfirmedAt === null;
    await openInBrowser(keeper, request, reply, user, complete);
    if (!complete) return { next: 'second-factor' as const, me: null };
    return { next: 'signed-in' as const, me: await welcome(app, user.id, request.id) };
  });

  implement(app, routes.session.signOut, async ({ actor, database, request, reply }) => {
    await endInBrowser(keeper, request, reply);
    if (actor.kind === 'user') {
      await database.as(actor, (db) =>
        record(db, actor, request.id, { action: 'signed out', recordType: 'user', recordId: actor.id }),
      );
    }
    return { ok: true as const };
  });
}

/** The last step of every sign-in, once all factors were right. */
export function welcome(app: FastifyInstance, userId: string, requestId: string) {
  return app.database.as(system, async (db) => {
    const user = await db.user.update({ where: { id: userId }, data: { lastSignInAt: new Date() } });
    const { id, name, role, builderId } = user;
    await record(db, { kind: 'user', id, name, role, builderId }, requestId, {
      action: 'signed in',
      recordType: 'user',
      recordId: id,
    });
    return presentMe(db, id);
  });
}
