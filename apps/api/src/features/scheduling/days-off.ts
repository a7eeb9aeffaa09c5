import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { found, invalid } from '../../kernel/problems/app-error.ts';
import { record } from '../../kernel/records/events.ts';
import { companyOptions, dayAt, isoDate } from '../assessment/index.ts';
import { daysOff } from '../booking-rules/index.ts';

export function keepDaysOff(app: FastifyInstance): void {
  implementInTransaction(app, routes.scheduling.daysOff, async ({ db }) => {
    const { timezone } = await companyOptions(db);
    return daysOff(db, { from: dayAt(new Date(), timezone) });
  });

  implementInTransaction(app, routes.scheduling.enterDayOff, async ({ db, actor, body, request }) => {
    const { raterId, from, to, why } = body;
    const rater =
      raterId === null ? null : await db.user.findUnique({ where: { id: raterId, role: 'rater' } });
    if (raterId !== null && !rater) throw invalid('raterId', 'Nobody with this id works as a rater.');
    const { id, byName } = await db.dayOff.create({
      data: { raterId, fromOn: new Date(from), toOn: new Date(to), why, byName: actor.name },
    });
    await record(db, actor, request.id, {
      action: 'days off entered',
      recordType: 'days off',
      recordId: id,
      after: { raterId, rater: rater?.name ?? null, from, to },
      reason: why,
    });
    return { id, raterId, rater: rater?.name ?? null, from, to, why, byName };
  });

  implementInTransaction(app, routes.scheduling.removeDayOff, async ({ db, actor, params, request }) => {
    const row = found(await db.dayOff.findUnique({ where: params }), 'day off');
    await db.dayOff.delete({ where: params });
    await record(db, actor, request.id, {
      action: 'days off taken back',
      recordType: 'days off',
      recordId: row.id,
      before: { raterId: row.raterId, from: isoDate(row.fromOn), to: isoDate(row.toOn), why: row.why },
    });
    return { ok: true as const };
  });
}
