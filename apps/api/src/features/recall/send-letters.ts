import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import type { Db } from '../../kernel/database/database.ts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { AppError, found } from '../../kernel/problems/app-error.ts';
import { record } from '../../kernel/records/events.ts';
import { queueMail } from '../../kernel/records/mail.ts';
import { pageAnswer, pageWindow } from '../../kernel/records/page.ts';
import { grouped } from './grouped.ts';

/** The builders' people who asked for notices, by builder. */
async function recipientsOf(db: Db, builderIds: string[]): Promise<Map<string, string[]>> {
  const contacts = await db.builderContact.findMany({
    where: { builderId: { in: builderIds }, notify: true, email: { not: null } },
    orderBy: { email: 'asc' },
  });
  const byBuilder = grouped(contacts, ({ builderId }) => builderId);
  return new Map([...byBuilder].map(([id, list]) => [id, [...new Set(list.map(({ email }) => email!))]]));
}

export function sendLetters(app: FastifyInstance): void {
  implementInTransaction(app, routes.recall.letters, async ({ db, params, query }) => {
    found(await db.recall.findUnique({ where: params, select: { id: true } }), 'recall');
    const where = { recallId: params.id };
    const rows = await db.recallLetter.findMany({
      where,
      include: { builder: { select: { id: true, name: true } } },
      orderBy: [{ houses: 'desc' }, { id: 'asc' }],
      ...pageWindow(query),
    });
    const todays = await recipientsOf(
      db,
      rows.map(({ builderId }) => builderId),
    );
    const letters = rows.map(({ id, builder, houses, subject, body, sentAt, sentBy, recipients }) => ({
      ...{ id, builder, houses, subject, body, sentBy },
      sentAt: sentAt?.toISOString() ?? null,
      recipients: sentAt ? (recipients as string[]) : (todays.get(builder.id) ?? []),
    }));
    return pageAnswer(letters, await db.recallLetter.count({ where }), query);
  });

  implementInTransaction(app, routes.recall.sendLetter, async ({ db, actor, params, body, request }) => {
    const letter = found(await db.recallLetter.findUnique({ where: params }), 'letter');
    const recipients = (await recipientsOf(db, [letter.builderId])).get(letter.builderId) ?? [];
    if (recipients.length === 0)
      throw new AppError(
        'conflict',
        'Nobody of this builder has an address and asked for notices. Add a contact first.',
      );
    // Of two who send it at once, the second finds it sent.
    const { count } = await db.recallLetter.updateMany({
      where: { id: letter.id, sentAt: null },
      data: { ...body, recipients, sentAt: new Date(), sentBy: actor.name },
    });
    if (count === 0) throw new AppError('conflict', 'This letter was sent already.');
    await queueMail(db, ...recipients.map((recipient) => ({ recipient, ...body, about: 'recall' })));
    await record(db, actor, request.id, {
      ...{ action: 'recall letter sent', recordType: 'recall', recordId: letter.recallId },
      after: { builderId: letter.builderId, recipients, ...body },
    });
    return { ok: true as const };
  });
}
