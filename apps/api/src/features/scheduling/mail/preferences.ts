import type { FastifyInstance } from 'fastify';
import { routes, type MailKind } from '@countercheck/contracts';
import { asSystem } from '../../../kernel/database/as-system.ts';
import { implementInTransaction } from '../../../kernel/http/implement.ts';
import { record } from '../../../kernel/records/events.ts';

export function keepMailPreferences(app: FastifyInstance): void {
  implementInTransaction(app, routes.scheduling.mailPreferences, async ({ db, actor }) => {
    const { mutedMail } = await db.user.findUniqueOrThrow({ where: { id: actor.id } });
    return { muted: mutedMail as MailKind[] };
  });

  implementInTransaction(
    app,
    routes.scheduling.changeMailPreferences,
    async ({ db, actor, body, request }) => {
      const muted = [...new Set(body.muted)];
      const before = await db.user.findUniqueOrThrow({ where: { id: actor.id } });
      // A builder changes nothing of users but this, of itself.
      await asSystem(db, actor, () =>
        db.user.update({ where: { id: actor.id }, data: { mutedMail: muted } }),
      );
      await record(db, actor, request.id, {
        action: 'mail preferences changed',
        recordType: 'user',
        recordId: actor.id,
        before: { muted: before.mutedMail },
        after: { muted },
      });
      return { muted };
    },
  );
}
