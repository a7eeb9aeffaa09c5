import { createHash } from 'node:crypto';
import { subDays } from 'date-fns';
import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import { asSystem } from '../../../kernel/database/as-system.ts';
import { implement } from '../../../kernel/http/implement.ts';
import { calendarText, type CalendarEntry } from './text.ts';

/** What is longer past than this is of no use in a calendar, days. */
const keptFor = 60;

const house = {
  select: {
    address: true,
    lot: true,
    latitude: true,
    longitude: true,
    community: { select: { name: true, latitude: true, longitude: true } },
    builder: { select: { name: true } },
  },
};

export function serveCalendars(app: FastifyInstance): void {
  implement(app, routes.scheduling.calendar, async ({ database, actor, request, reply }) => {
    const { name, entries } = await database.as(actor, async (db) => {
      const since = subDays(new Date(), keptFor);
      const company = await db.company.findUniqueOrThrow({ where: { id: 1 }, select: { name: true } });
      const ids = await db.visit.findMany({
        where: { raterId: actor.id, endsAt: { gte: since } },
        select: { id: true },
      });
      const taken = await db.visitHandover.findMany({
        where: { raterId: actor.id, endsAt: { gte: since } },
        orderBy: [{ startsAt: 'asc' }, { visitId: 'asc' }],
      });
      // What was found to be his is read with the house; the address of a calendar opens no houses.
      const visits = await asSystem(db, actor, () =>
        db.visit.findMany({
          where: { id: { in: [...ids.map(({ id }) => id), ...taken.map(({ visitId }) => visitId)] } },
          include: { house, requests: { select: { accessNote: true } } },
          orderBy: [{ startsAt: 'asc' }, { id: 'asc' }],
        }),
      );
      const own = visits.filter(({ raterId }) => raterId === actor.id);
      const byId = new Map(visits.map((visit) => [visit.id, visit]));
      const entries: CalendarEntry[] = [
        ...own.map((visit) => ({
          ...visit,
          cancelled: visit.state === 'cancelled' || visit.state === 'not_ready',
          access: visit.requests[0]?.accessNote ?? null,
        })),
        // What was given to another rater is off his own calendar; an address that he no longer needs goes with it.
        ...taken.map(({ visitId, startsAt, endsAt, sequence, at }) => ({
          ...{ ...byId.get(visitId)!, startsAt, endsAt, sequence, updatedAt: at, note: null },
          ...{ cancelled: true, access: null },
        })),
      ];
      return { name: `${company.name}: ${actor.name}`, entries };
    });
    const text = calendarText(name, entries, app.config.publicUrl);
    const tag = `"${createHash('sha256').update(text).digest('base64url')}"`;
    void reply.header('etag', tag).header('cache-control', 'private, no-cache');
    if (request.headers['if-none-match']?.split(/,\s*/).includes(tag)) void reply.code(304).send();
    else void reply.type('text/calendar; charset=utf-8').send(text);
    return text;
  });
}
