import type { FastifyInstance } from 'fastify';
import { type MailKind, routes } from '@countercheck/contracts';
import { asSystem } from '../../../kernel/database/as-system.ts';
import { implementInTransaction } from '../../../kernel/http/implement.ts';
import { found } from '../../../kernel/problems/app-error.ts';
import { record } from '../../../kernel/records/events.ts';

/** What a contact without an account wants to hear of: by the link that its letters carry, and nothing else of it. */
export function keepMailChoices(app: FastifyInstance): void {
  implementInTransaction(app, routes.scheduling.mailChoices, async ({ db, actor }) => {
    const row = found(await db.builderContact.findUnique({ where: { id: actor.contactId } }), 'contact');
    const company = await db.company.findUniqueOrThrow({ where: { id: 1 }, select: { name: true } });
    const { name, email, notify } = row;
    return { company: company.name, name, email, notify, muted: row.mutedMail as MailKind[] };
  });

  implementInTransaction(app, routes.scheduling.changeMailChoices, async ({ db, actor, body, request }) => {
    const where = { id: actor.contactId };
    const before = found(await db.builderContact.findUnique({ where }), 'contact');
    const chosen = { notify: body.notify, muted: [...new Set(body.muted)] };
    // A link changes nothing of contacts but this, of the one that it was sent to.
    await asSystem(db, actor, () =>
      db.builderContact.update({ where, data: { notify: chosen.notify, mutedMail: chosen.muted } }),
    );
    await record(db, actor, request.id, {
      action: 'mail preferences changed',
      recordType: 'builder',
      recordId: before.builderId,
      before: { contact: before.name, notify: before.notify, muted: before.mutedMail },
      after: { contact: before.name, ...chosen },
    });
    return chosen;
  });
}
