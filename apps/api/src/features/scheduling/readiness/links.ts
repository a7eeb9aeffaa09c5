import { TZDate } from '@date-fns/tz';
import { addDays, format } from 'date-fns';
import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import type { ReadinessLink } from '@countercheck/prisma';
import { implementInTransaction } from '../../../kernel/http/implement.ts';
import { AppError, found } from '../../../kernel/problems/app-error.ts';
import { record } from '../../../kernel/records/events.ts';
import { queueMail } from '../../../kernel/records/mail.ts';
import { hashToken, newToken } from '../../../kernel/secrets/tokens.ts';
import { companyOptions } from '../../assessment/index.ts';
import { heldRequest } from '../requests/held.ts';
import { stillOpen } from './answer.ts';

const letter = (name: string, address: string, url: string, until: string, company: string) => `Hello ${name},

before our rater comes to ${address}, please tell us what is ready there:

${url}

The link is for you and works until ${until}. You can change your answers until the visit.

${company}
`;

function present({ id, name, email, createdAt, expiresAt, revokedAt, lastUsedAt }: ReadinessLink) {
  return {
    ...{ id, name, email },
    state: revokedAt
      ? ('revoked' as const)
      : expiresAt <= new Date()
        ? ('expired' as const)
        : ('open' as const),
    createdAt: createdAt.toISOString(),
    expiresAt: expiresAt.toISOString(),
    lastUsedAt: lastUsedAt?.toISOString() ?? null,
  };
}

export function keepReadinessLinks(app: FastifyInstance): void {
  implementInTransaction(app, routes.scheduling.readinessLinks, async ({ db, params }) => {
    found(await db.visitRequest.findUnique({ where: params, select: { id: true } }), 'request');
    const rows = await db.readinessLink.findMany({
      where: { requestId: params.id },
      orderBy: [{ createdAt: 'desc' }, { id: 'desc' }],
    });
    return rows.map(present);
  });

  implementInTransaction(
    app,
    routes.scheduling.sendReadinessLink,
    async ({ db, actor, params, body, request }) => {
      const asked = await heldRequest(db, actor, params.id);
      if (!stillOpen(asked))
        throw new AppError('conflict', 'This visit was made or is no longer asked for; nothing is awaited.');
      const { address } = await db.house.findUniqueOrThrow({
        where: { id: asked.houseId },
        select: { address: true },
      });
      const company = await companyOptions(db);
      const token = newToken();
      const expiresAt = addDays(new Date(), body.days);
      const { name, email } = body;
      const row = await db.readinessLink.create({
        data: { requestId: asked.id, name, email, tokenHash: hashToken(token), expiresAt },
      });
      const url = `${app.config.publicUrl}/ready/${token}`;
      const until = format(new TZDate(expiresAt, company.timezone), 'd MMM yyyy, HH:mm');
      if (email)
        await queueMail(db, {
          recipient: email,
          subject: `Is ${address} ready?`,
          body: letter(name, address, url, until, company.name),
          about: 'readiness',
        });
      await record(db, actor, request.id, {
        action: 'link sent',
        recordType: 'readiness link',
        recordId: row.id,
        houseId: asked.houseId,
        after: { name, expiresAt, mailed: email !== null },
      });
      return { link: present(row), url };
    },
  );

  implementInTransaction(
    app,
    routes.scheduling.revokeReadinessLink,
    async ({ db, actor, params, request }) => {
      const before = found(
        await db.readinessLink.findUnique({
          where: params,
          include: { request: { select: { houseId: true } } },
        }),
        'link',
      );
      if (before.revokedAt === null) {
        const revokedAt = new Date();
        await db.readinessLink.update({ where: params, data: { revokedAt } });
        await record(db, actor, request.id, {
          action: 'link withdrawn',
          recordType: 'readiness link',
          recordId: before.id,
          houseId: before.request.houseId,
          after: { revokedAt },
        });
      }
      return { ok: true as const };
    },
  );
}
