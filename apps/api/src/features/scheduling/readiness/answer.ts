import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import type { ReadinessKind, VisitRequest as Row } from '@countercheck/prisma';
import type { ContactActor, UserActor } from '../../../kernel/actor.ts';
import type { Db } from '../../../kernel/database/database.ts';
import { implementInTransaction } from '../../../kernel/http/implement.ts';
import { AppError, found, invalid } from '../../../kernel/problems/app-error.ts';
import { record } from '../../../kernel/records/events.ts';
import { heldRequest } from '../requests/held.ts';
import { loadRequests } from '../requests/present.ts';
import { pointsAsked } from './points.ts';

interface Answer {
  kind: ReadinessKind;
  ready: boolean;
  note: string | null;
}

/** Whether the list can still be answered: the visit is to come. */
export const stillOpen = ({ state }: Pick<Row, 'state'>) => state === 'open' || state === 'booked';

async function keepAnswers(
  db: Db,
  actor: UserActor | ContactActor,
  requestId: string,
  id: string,
  answers: readonly Answer[],
): Promise<void> {
  const request = await heldRequest(db, actor, id);
  if (!stillOpen(request))
    throw new AppError('conflict', 'This visit was made or is no longer asked for; nothing is awaited.');
  const asked = pointsAsked[request.kind];
  for (const [place, { kind }] of answers.entries())
    if (!asked.includes(kind)) throw invalid(`points.${place}.kind`, 'This is not asked for such a visit.');
  for (const { kind, ready, note } of answers) {
    const data = { ready, note, byName: actor.name, at: new Date() };
    await db.readinessPoint.upsert({
      where: { requestId_kind: { requestId: id, kind } },
      create: { requestId: id, kind, ...data },
      update: data,
    });
  }
  await record(db, actor, requestId, {
    action: 'readiness answered',
    recordType: 'visit request',
    recordId: id,
    houseId: request.houseId,
    after: { points: answers },
  });
}

export function answerReadiness(app: FastifyInstance): void {
  implementInTransaction(
    app,
    routes.scheduling.answerReadiness,
    async ({ db, actor, params, body, request }) => {
      await keepAnswers(db, actor, request.id, params.id, body.points);
      const [answered] = await loadRequests(db, actor, [params.id]);
      return found(answered, 'request');
    },
  );

  implementInTransaction(app, routes.scheduling.readinessForm, async ({ db, actor }) => {
    const [request] = await loadRequests(db, actor, [actor.requestId]);
    const { house, kind, earliestOn, deadlineOn, readiness, state } = found(request, 'request');
    const link = found(await db.readinessLink.findUnique({ where: { id: actor.linkId } }), 'link');
    const company = await db.company.findUniqueOrThrow({ where: { id: 1 }, select: { name: true } });
    return {
      company: company.name,
      name: link.name,
      house: {
        address: house.address,
        lot: house.lot,
        community: house.community,
        builder: house.builder.name,
      },
      ...{ kind, earliestOn, deadlineOn, readiness },
      open: stillOpen({ state }),
      expiresAt: link.expiresAt.toISOString(),
    };
  });

  implementInTransaction(app, routes.scheduling.confirmReadiness, async ({ db, actor, body, request }) => {
    await keepAnswers(db, actor, request.id, actor.requestId, body.points);
    const [answered] = await loadRequests(db, actor, [actor.requestId]);
    return found(answered, 'request').readiness;
  });
}
