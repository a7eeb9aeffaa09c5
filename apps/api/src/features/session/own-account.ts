import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import { system } from '../../kernel/actor.ts';
import { implement } from '../../kernel/http/implement.ts';
import { record } from '../../kernel/records/events.ts';
import { given } from '../../kernel/records/given.ts';
import { tokenOf } from './browser.ts';
import { confirmPassword } from './confirm-password.ts';
import type { SessionKeeper } from './lucia.ts';
import { refuseWeakPassword } from './password-rules.ts';
import { hashPassword } from './passwords.ts';
import { presentMe } from './present.ts';
import { endSessionsOf } from './store.ts';

// A user's own row is changed as the system: row-level security lets a builder see colleagues, not change users.
export function ownAccount(app: FastifyInstance, keeper: SessionKeeper): void {
  implement(app, routes.session.me, ({ actor, database }) =>
    database.as(system, (db) => presentMe(db, actor.id)),
  );

  implement(app, routes.session.changeMe, ({ actor, body, database, request }) =>
    database.as(system, async (db) => {
      const { name, unitSystem } = await db.user.findUniqueOrThrow({ where: { id: actor.id } });
      await db.user.update({ where: { id: actor.id }, data: given(body) });
      await record(db, actor, request.id, {
        action: 'user changed',
        recordType: 'user',
        recordId: actor.id,
        before: { name, unitSystem },
        after: body,
      });
      return presentMe(db, actor.id);
    }),
  );

  implement(app, routes.session.changePassword, async ({ actor, body, database, request }) => {
    const user = await confirmPassword(database, actor.id, body.current, request.ip);
    await database.as(system, (db) => refuseWeakPassword(db, body.next, user, 'next'));
    const passwordHash = await hashPassword(body.next);
    await database.as(system, async (db) => {
      await db.user.update({ where: { id: actor.id }, data: { passwordHash } });
      await endSessionsOf(db, actor.id, tokenOf(request, keeper) ?? '');
      await record(db, actor, request.id, {
        action: 'password changed',
        recordType: 'user',
        recordId: actor.id,
      });
    });
    return { ok: true as const };
  });
}
