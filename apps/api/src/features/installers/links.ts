import { addDays, format } from 'date-fns';
import { TZDate } from '@date-fns/tz';
import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import type { UserActor } from '../../kernel/actor.ts';
import type { Db } from '../../kernel/database/database.ts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { found, invalid } from '../../kernel/problems/app-error.ts';
import { record } from '../../kernel/records/events.ts';
import { queueMail } from '../../kernel/records/mail.ts';
import { hashToken, newToken } from '../../kernel/secrets/tokens.ts';
import { lockHouse, refuseSealed } from '../houses/index.ts';
import { presentLink } from './present.ts';

interface Letter {
  name: string;
  address: string;
  url: string;
  until: string;
  company: string;
  why?: string | undefined;
}

const letter = ({ name, address, url, until, company, why }: Letter) => `Hello ${name},

please report your figures for ${address} here:

${url}
${why === undefined ? '' : `\nThey are open again for a reinspection: ${why}\nWhat you signed before stays in the file.\n`}
The link is yours alone and works until ${until}. You can correct what you signed until the rater begins to measure.

${company}
`;

/** A personal link for an installer, mailed when he has an address; `why` tells him for what it comes again. */
export async function makeLink(
  app: FastifyInstance,
  db: Db,
  actor: UserActor,
  requestId: string,
  house: { id: string; address: string },
  wanted: { installerId: string; days?: number | undefined },
  why?: string,
) {
  const installer = found(await db.installer.findUnique({ where: { id: wanted.installerId } }), 'installer');
  if (!installer.active) throw invalid('installerId', `${installer.name} no longer works with us.`);
  const company = await db.company.findUniqueOrThrow({ where: { id: 1 } });
  const token = newToken();
  const expiresAt = addDays(new Date(), wanted.days ?? company.installerLinkDays);
  const row = await db.installerLink.create({
    data: { houseId: house.id, installerId: installer.id, tokenHash: hashToken(token), expiresAt },
    include: { installer: true },
  });
  const url = `${app.config.publicUrl}/figures/${token}`;
  if (installer.email) {
    const until = format(new TZDate(expiresAt, company.timezone), 'd MMM yyyy, HH:mm');
    const body = letter({
      name: installer.name,
      address: house.address,
      url,
      until,
      company: company.name,
      why,
    });
    await queueMail(db, {
      ...{ recipient: installer.email, subject: `Your figures for ${house.address}`, body },
      about: 'link',
    });
  }
  await record(db, actor, requestId, {
    action: 'link sent',
    recordType: 'link',
    recordId: row.id,
    houseId: house.id,
    after: {
      installerId: installer.id,
      installer: installer.name,
      expiresAt,
      mailed: Boolean(installer.email),
    },
  });
  return { link: presentLink(row), url };
}

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
    const house = await db.house.findUniqueOrThrow({ where: params, select: { id: true, address: true } });
    return makeLink(app, db, actor, request.id, house, body);
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
