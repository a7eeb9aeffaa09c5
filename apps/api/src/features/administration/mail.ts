import type { FastifyInstance } from 'fastify';
import type { OutgoingMail } from '@countercheck/prisma';
import { routes } from '@countercheck/contracts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { pageAnswer, pageWindow } from '../../kernel/records/page.ts';

function present({ id, recipient, subject, body, createdAt, sentAt, attempts, lastError }: OutgoingMail) {
  return {
    ...{ id, recipient, subject, body, attempts, lastError },
    createdAt: createdAt.toISOString(),
    sentAt: sentAt?.toISOString() ?? null,
  };
}

/** The outbox: the only way to a link where no mail server is set. */
export function readMail(app: FastifyInstance): void {
  implementInTransaction(app, routes.administration.mail, async ({ db, query }) => {
    const contains = query.search && { contains: query.search, mode: 'insensitive' as const };
    const where = contains ? { OR: [{ recipient: contains }, { subject: contains }] } : {};
    const rows = await db.outgoingMail.findMany({
      where,
      orderBy: [{ createdAt: 'desc' }, { id: 'desc' }],
      ...pageWindow(query),
    });
    const page = pageAnswer(rows.map(present), await db.outgoingMail.count({ where }), query);
    return { ...page, delivery: app.config.SMTP_URL ? ('smtp' as const) : ('outbox-only' as const) };
  });
}
