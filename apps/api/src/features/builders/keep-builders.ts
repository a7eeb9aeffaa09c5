import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { found } from '../../kernel/problems/app-error.ts';
import { given } from '../../kernel/records/given.ts';
import { record } from '../../kernel/records/events.ts';
import { builderCounts, presentBuilder, presentContact } from './present.ts';

export function keepBuilders(app: FastifyInstance): void {
  implementInTransaction(app, routes.builders.register, async ({ db, actor, body, request }) => {
    const row = await db.builder.create({ data: body, include: builderCounts });
    await record(db, actor, request.id, {
      action: 'builder registered',
      recordType: 'builder',
      recordId: row.id,
      after: body,
    });
    return presentBuilder(row, 0);
  });

  implementInTransaction(app, routes.builders.change, async ({ db, actor, params, body, request }) => {
    const before = found(await db.builder.findUnique({ where: params }), 'builder');
    const row = await db.builder.update({ where: params, data: given(body), include: builderCounts });
    await record(db, actor, request.id, {
      action: 'builder changed',
      recordType: 'builder',
      recordId: row.id,
      before,
      after: body,
    });
    const open = await db.failedItem.count({
      where: { house: { builderId: row.id }, state: { not: 'closed' } },
    });
    return presentBuilder(row, open);
  });

  implementInTransaction(app, routes.builders.addContact, async ({ db, actor, params, body, request }) => {
    found(await db.builder.findUnique({ where: params }), 'builder');
    const row = await db.builderContact.create({ data: { ...body, builderId: params.id } });
    await record(db, actor, request.id, {
      action: 'contact added',
      recordType: 'builder',
      recordId: params.id,
      after: body,
    });
    return presentContact(row);
  });

  implementInTransaction(app, routes.builders.changeContact, async ({ db, actor, params, body, request }) => {
    const before = found(await db.builderContact.findUnique({ where: params }), 'contact');
    const row = await db.builderContact.update({ where: params, data: given(body) });
    await record(db, actor, request.id, {
      action: 'contact changed',
      recordType: 'builder',
      recordId: row.builderId,
      before,
      after: body,
    });
    return presentContact(row);
  });

  implementInTransaction(app, routes.builders.removeContact, async ({ db, actor, params, request }) => {
    const before = found(await db.builderContact.findUnique({ where: params }), 'contact');
    await db.builderContact.delete({ where: params });
    await record(db, actor, request.id, {
      action: 'contact removed',
      recordType: 'builder',
      recordId: before.builderId,
      before,
    });
    return { ok: true as const };
  });
}
