import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import { implementInTransaction } from '../../../kernel/http/implement.ts';
import { record } from '../../../kernel/records/events.ts';
import { hashToken, newToken } from '../../../kernel/secrets/tokens.ts';

export function keepCalendarLinks(app: FastifyInstance): void {
  implementInTransaction(app, routes.scheduling.calendarLink, async ({ db, actor }) => {
    const open = await db.calendarFeed.findFirst({ where: { userId: actor.id, revokedAt: null } });
    return {
      open: open && {
        createdAt: open.createdAt.toISOString(),
        lastReadAt: open.lastReadAt?.toISOString() ?? null,
      },
    };
  });

  implementInTransaction(app, routes.scheduling.makeCalendarLink, async ({ db, actor, request }) => {
    await db.$queryRaw`SELECT id FROM users WHERE id = ${actor.id}::uuid FOR NO KEY UPDATE`;
    await db.calendarFeed.updateMany({
      where: { userId: actor.id, revokedAt: null },
      data: { revokedAt: new Date() },
    });
    const token = newToken();
    const row = await db.calendarFeed.create({ data: { userId: actor.id, tokenHash: hashToken(token) } });
    await record(db, actor, request.id, {
      action: 'calendar link made',
      recordType: 'calendar link',
      recordId: row.id,
    });
    return { url: `${app.config.publicUrl}/api/calendars/${token}.ics` };
  });

  implementInTransaction(app, routes.scheduling.withdrawCalendarLink, async ({ db, actor, request }) => {
    const open = await db.calendarFeed.findFirst({ where: { userId: actor.id, revokedAt: null } });
    if (open) {
      await db.calendarFeed.update({ where: { id: open.id }, data: { revokedAt: new Date() } });
      await record(db, actor, request.id, {
        action: 'calendar link withdrawn',
        recordType: 'calendar link',
        recordId: open.id,
      });
    }
    return { ok: true as const };
  });
}
