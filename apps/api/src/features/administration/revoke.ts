import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { found } from '../../kernel/problems/app-error.ts';
import { record } from '../../kernel/records/events.ts';
import { endSessionsOf } from '../session/index.ts';

/** What helps when a telephone is lost: whoever has it is out, and the owner can begin anew. */
export function revokeAccess(app: FastifyInstance): void {
  implementInTransaction(app, routes.administration.endSessions, async ({ db, actor, params, request }) => {
    const user = found(await db.user.findUnique({ where: params }), 'user');
    await endSessionsOf(db, user.id);
    await record(db, actor, request.id, {
      action: 'sessions ended',
      recordType: 'user',
      recordId: user.id,
    });
    return { ok: true as const };
  });

  implementInTransaction(
    app,
    routes.administration.resetSecondFactor,
    async ({ db, actor, params, request }) => {
      const user = found(await db.user.findUnique({ where: params }), 'user');
      const without = { totpSecret: null, totpConfirmedAt: null, totpLastStep: null };
      await db.user.update({ where: params, data: without });
      await endSessionsOf(db, user.id);
      await record(db, actor, request.id, {
        action: 'second factor removed',
        recordType: 'user',
        recordId: user.id,
        before: { active: user.totpConfirmedAt !== null },
      });
      return { ok: true as const };
    },
  );
}
