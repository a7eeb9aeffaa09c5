import { addDays, format } from 'date-fns';
import { TZDate } from '@date-fns/tz';
import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { found, invalid } from '../../kernel/problems/app-error.ts';
import { record } from '../../kernel/records/events.ts';
import { queueMail } from '../../kernel/records/mail.ts';
import { hashToken, newToken } from '../../kernel/secrets/tokens.ts';
import { lockHouse, refuseSealed } from '../houses/index.ts';
import { presentLink } from './present.ts';

const letter = (name: string, address: string, url: string, until: string, company: string) => `Hello ${name},

please report your figures for ${address} here:

${url}

The link is yours alone and works until ${until}. You can correct what you signed until the rater begins to measure.

${company}
`;

export function keepLinks(app: FastifyInstance): void {
  implementInTransaction(app, routes.installers.links, async ({ db, params }) => {
    found(await db.house.findUnique({ where: params, select: { id: true } }), 'house');
    const rows = await db.installerLink.findMany({
      where: { houseId: params.id },
      include: { installer: true },
      orderBy: [{ createdAt: 'desc' }, { id: 'desc' }],
    });
    return rows.map(presentLink);
  });

  implementInTransaction(app, routes.installers.sendLink, async ({ db, actor, params, body, request }) => {
    refuseSealed(await lockHouse(db, params.id));
    const { address } = await db.house.findUniqueOrThrow({ where: params, select: { address: true } });
    const installer = found(await db.installer.findUnique({ where: { id: body.installerId } }), 'installer');
    if (!installer.active) throw invalid('installerId', `${installer.name} no longer works with us.`);
    const company = await db.company.findUniqueOrThrow({ where: { id: 1 } });
    const token = newToken();
    const expiresAt = addDays(new Date(), body.days ?? company.installerLinkDays);
    const row = await db.installerLink.create({
      data: { houseId: params.id, installerId: installer.id, tokenHash: hashToken(token), expiresAt },
      include: { installer: true },
    });
    const url = `${app.config.publicUrl}/figures/${token}`;
    if (installer.email) {
      const until = format(new TZDate(expiresAt, company.timezone), 'd MMM yyyy, HH:mm');
      await queueMail(db, {
        recipient: installer.email,
        subject: `Your figures for ${address}`,
        body: letter(installer.name, address, url, until, company.name),
        about: 'link',
      });
    }
    await record(db, actor, request.id, {
      action: 'link sent',
      recordType: 'link',
      recordId: row.id,
      houseId: params.id,
      after: {
        installerId: installer.id,
        installer: installer.name,
        expiresAt,
        mailed: Boolean(installer.email),
      },
    });
    return { link: presentLink(row), url };
  });

  implementInTransaction(app, routes.installers.revokeLink, async ({ db, actor, params, request }) => {
    const before = found(await db.installerLink.findUnique({ where: params }), 'link');
    if (before.revokedAt === null) {
      const revokedAt = new Date();
      await db.installerLink.update({ where: params, data: { revokedAt } });
      await record(db, actor, request.id, {
        action: 'link withdrawn',
        recordType: 'link',
        recordId: params.id,
        houseId: before.houseId,
        after: { revokedAt },
      });
    }
    return { ok: true as const };
  });
}
