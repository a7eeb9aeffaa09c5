import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import type { UserActor } from '../../kernel/actor.ts';
import { asSystem } from '../../kernel/database/as-system.ts';
import type { Db } from '../../kernel/database/database.ts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { AppError, found } from '../../kernel/problems/app-error.ts';
import { record } from '../../kernel/records/events.ts';
import { queueMail } from '../../kernel/records/mail.ts';
import { moveStage } from '../../kernel/records/stage.ts';
import { openVisitRequest } from '../visits/index.ts';
import { presentRequest, requestParts } from './requests.ts';

async function tellOffice(db: Db, actor: UserActor, house: { address: string; lot: string }, items: number) {
  // A builder does not see who works in the office, and need not.
  const office = await asSystem(db, actor, () =>
    db.user.findMany({ where: { role: 'office', active: true }, select: { email: true } }),
  );
  const place = `${house.address} (lot ${house.lot})`;
  await queueMail(
    db,
    ...office.map(({ email }) => ({
      recipient: email,
      subject: `Reinspection asked: ${place}`,
      body: `${actor.name} asks for a reinspection of ${place}. Items corrected: ${items}.\n`,
      about: 'reinspection',
    })),
  );
}

async function checkOpen(db: Db, houseId: string) {
  const pending = await db.reinspectionRequest.count({
    where: { houseId, state: { in: ['asked', 'booked'] } },
  });
  if (pending > 0) throw new AppError('conflict', 'A reinspection of this house is asked for already.');
  const items = await db.failedItem.findMany({ where: { houseId, state: { not: 'closed' } } });
  if (items.length === 0) throw new AppError('conflict', 'No failed item of this house is open.');
  const corrected = items.filter(({ state }) => state === 'corrected');
  if (corrected.length === 0)
    throw new AppError('conflict', 'Record first what was corrected; no failed item of this house says so.');
  return { items, corrected };
}

/** Whose readings are looked at again. */
async function lastRater(db: Db, houseId: string): Promise<string | null> {
  const visit = await db.visit.findFirst({
    where: { houseId, state: 'submitted', kind: { not: 'quality' } },
    orderBy: { submittedAt: 'desc' },
    select: { raterId: true },
  });
  return visit?.raterId ?? null;
}

export function askReinspection(app: FastifyInstance): void {
  implementInTransaction(
    app,
    routes.failedItems.askReinspection,
    async ({ db, actor, params, body, request }) => {
      await db.$queryRaw`SELECT id FROM houses WHERE id = ${params.id}::uuid FOR UPDATE`;
      const house = found(await db.house.findUnique({ where: params }), 'house');
      const { items, corrected } = await checkOpen(db, house.id);
      const row = await db.reinspectionRequest.create({
        data: {
          houseId: house.id,
          note: body.note,
          earliestOn: body.earliestOn === null ? null : new Date(body.earliestOn),
          askedById: actor.id,
          askedByName: actor.name,
        },
        include: requestParts,
      });
      const ids = corrected.map(({ id }) => id);
      await db.failedItem.updateMany({
        where: { id: { in: ids } },
        data: { state: 'reinspection_asked', updatedAt: new Date() },
      });
      await db.failedItemEntry.createMany({
        data: ids.map((failedItemId) => ({
          failedItemId,
          kind: 'reinspection_asked' as const,
          text: body.note ?? 'Reinspection asked.',
          byName: actor.name,
          byUserId: actor.id,
        })),
      });
      await record(db, actor, request.id, {
        action: 'reinspection asked',
        recordType: 'reinspection request',
        recordId: row.id,
        houseId: house.id,
        after: { ...body, items: corrected.map(({ item, subjectLabel }) => ({ item, subjectLabel })) },
      });
      await moveStage(db, actor, request.id, house, 'reinspection_asked');
      await openVisitRequest(db, actor, request.id, {
        ...{ houseId: house.id, kind: 'reinspection', source: 'reinspection' },
        ...{ earliestOn: body.earliestOn, note: body.note, reinspectionRequestId: row.id },
        avoidRaterId: await lastRater(db, house.id),
      });
      await tellOffice(db, actor, house, corrected.length);
      return presentRequest(row, items.length);
    },
  );
}
