import type { FastifyInstance } from 'fastify';
import type { Event } from '@countercheck/prisma';
import { routes, type EventRecord } from '@countercheck/contracts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { pageAnswer, pageWindow } from '../../kernel/records/page.ts';

function presentEvent({ actorId: _actorId, id, at, ...event }: Omit<Event, 'content'>): EventRecord {
  return { ...event, id: String(id), at: at.toISOString() };
}

export function readEvents(app: FastifyInstance): void {
  implementInTransaction(app, routes.administration.events, async ({ db, query }) => {
    const where = {
      ...(query.houseId ? { houseId: query.houseId } : {}),
      ...(query.actorId ? { actorId: query.actorId } : {}),
      ...(query.action ? { action: query.action } : {}),
    };
    const rows = await db.event.findMany({
      where,
      omit: { content: true },
      orderBy: { id: 'desc' },
      ...pageWindow(query),
    });
    return pageAnswer(rows.map(presentEvent), await db.event.count({ where }), query);
  });
}
