import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import type { UserActor } from '../../../kernel/actor.ts';
import type { Db } from '../../../kernel/database/database.ts';
import { implementInTransaction } from '../../../kernel/http/implement.ts';
import { found } from '../../../kernel/problems/app-error.ts';
import { record } from '../../../kernel/records/events.ts';
import { newMailLink } from '../../../kernel/records/mail-link.ts';

/** Ends the links of all letters so far; the contact as it is. */
async function withdrawn(db: Db, actor: UserActor, requestId: string, contactId: string) {
  const contact = found(await db.builderContact.findUnique({ where: { id: contactId } }), 'contact');
  const { count } = await db.contactMailLink.updateMany({
    where: { contactId, revokedAt: null },
    data: { revokedAt: new Date() },
  });
  if (count > 0)
    await record(db, actor, requestId, {
      action: 'mail links withdrawn',
      recordType: 'builder',
      recordId: contact.builderId,
      after: { contact: contact.name, links: count },
    });
  return contact;
}

export function keepMailLinks(app: FastifyInstance): void {
  implementInTransaction(app, routes.scheduling.makeMailLink, async ({ db, actor, params, request }) => {
    const contact = await withdrawn(db, actor, request.id, params.id);
    const url = await newMailLink(db, contact.id, app.config.publicUrl);
    await record(db, actor, request.id, {
      action: 'mail link made',
      recordType: 'builder',
      recordId: contact.builderId,
      after: { contact: contact.name },
    });
    return { url };
  });

  implementInTransaction(app, routes.scheduling.withdrawMailLinks, async ({ db, actor, params, request }) => {
    await withdrawn(db, actor, request.id, params.id);
    return { ok: true as const };
  });
}
