import { createHash } from 'node:crypto';
import { subDays } from 'date-fns';
import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
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
      const own = await db.visit.findMany({
        where: { raterId: actor.id, endsAt: { gte: since } },
        include: { house, requests: { select: { access: true, accessNote: true } } },
        orderBy: [{ startsAt: 'asc' }, { id: 'asc' }],
      });
      const taken = await db.visitHandover.findMany({
        where: { raterId: actor.id, endsAt: { gte: since } },
        include: { visit: { include: { house } } },
        orderBy: [{ startsAt: 'asc' }, { visitId: 'asc' }],
      });
      const entries: CalendarEntry[] = [
        ...own.map((visit) => ({
          ...visit,
          cancelled: visit.state === 'cancelled' || visit.state === 'not_ready',
          access: visit.requests[0]?.accessNote ?? null,
        })),
        // What was given to another rater is off his own calendar; an address that he no longer needs goes with it.
        ...taken.map(({ visit, startsAt, endsAt, sequence, at }) => ({
          ...{ ...visit, startsAt, endsAt, sequence, updatedAt: at, note: null },
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
