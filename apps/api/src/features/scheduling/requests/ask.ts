import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import type { VisitRequest as Row } from '@countercheck/prisma';
import { asSystem } from '../../../kernel/database/as-system.ts';
import { implementInTransaction } from '../../../kernel/http/implement.ts';
import { AppError, found, invalid } from '../../../kernel/problems/app-error.ts';
import { record } from '../../../kernel/records/events.ts';
import { isoDate } from '../../assessment/index.ts';
import { lockHouse, refuseSealed } from '../../houses/index.ts';
import { openVisitRequest } from '../../visits/index.ts';
import { heldOpen } from './held.ts';
import { loadRequests } from './present.ts';

const date = (day: string | null) => (day === null ? null : new Date(day));

/** What the log keeps of a request. */
const kept = (row: Row) => ({
  ...{ minutes: row.minutes, access: row.access, accessNote: row.accessNote, note: row.note },
  ...{ openFrom: row.openFrom, openTo: row.openTo },
  earliestOn: isoDate(row.earliestOn),
  deadlineOn: row.deadlineOn ? isoDate(row.deadlineOn) : null,
  deadlineWhy: row.deadlineWhy,
});

export function askForVisits(app: FastifyInstance): void {
  implementInTransaction(app, routes.scheduling.ask, async ({ db, actor, body, request }) => {
    const { houseId, kind } = body;
    refuseSealed(await lockHouse(db, houseId));
    const known = await db.visitRequest.findFirst({
      where: { houseId, kind, state: { in: ['open', 'booked'] } },
    });
    if (known)
      throw new AppError(
        'conflict',
        known.state === 'open'
          ? 'This visit is asked for already.'
          : 'A visit of this kind is booked already.',
      );
    const source = actor.role === 'builder' ? 'house_ready' : 'office';
    const row = await openVisitRequest(db, actor, request.id, { ...body, source });
    const [asked] = await loadRequests(db, actor, [row.id]);
    return found(asked, 'request');
  });

  implementInTransaction(
    app,
    routes.scheduling.changeRequest,
    async ({ db, actor, params, body, request }) => {
      const before = await heldOpen(db, actor, params.id);
      const { earliestOn, deadlineOn, ...rest } = body;
      const earliest = earliestOn ? new Date(earliestOn) : before.earliestOn;
      const deadline = deadlineOn === undefined ? before.deadlineOn : date(deadlineOn);
      if (deadline && deadline < earliest)
        throw invalid('deadlineOn', `The deadline is not before the earliest day, ${isoDate(earliest)}.`);
      const why = rest.deadlineWhy === undefined ? before.deadlineWhy : rest.deadlineWhy;
      const row = await db.visitRequest.update({
        where: params,
        data: {
          ...Object.fromEntries(Object.entries(rest).filter(([, value]) => value !== undefined)),
          ...{ earliestOn: earliest, deadlineOn: deadline },
          minutesGiven:
            before.minutesGiven || (rest.minutes !== undefined && rest.minutes !== before.minutes),
          deadlineWhy: deadline ? (why ?? 'agreed') : null,
        },
      });
      await record(db, actor, request.id, {
        action: 'visit request changed',
        recordType: 'visit request',
        recordId: row.id,
        houseId: row.houseId,
        before: kept(before),
        after: kept(row),
      });
      const [changed] = await loadRequests(db, actor, [row.id]);
      return found(changed, 'request');
    },
  );

  implementInTransaction(app, routes.scheduling.withdraw, async ({ db, actor, params, body, request }) => {
    const before = await heldOpen(db, actor, params.id);
    if (before.source === 'reinspection')
      throw new AppError('conflict', 'What failed has still to be looked at again; the request stays.');
    if (before.source === 'retest')
      throw new AppError('conflict', 'The quality manager ordered this visit; only he takes it back.');
    await asSystem(db, actor, () =>
      db.visitRequest.update({ where: params, data: { state: 'withdrawn', withdrawnWhy: body.why } }),
    );
    await record(db, actor, request.id, {
      action: 'visit request withdrawn',
      recordType: 'visit request',
      recordId: before.id,
      houseId: before.houseId,
      before: { state: before.state },
      after: { state: 'withdrawn' },
      reason: body.why,
    });
    const [withdrawn] = await loadRequests(db, actor, [before.id]);
    return found(withdrawn, 'request');
  });
}
