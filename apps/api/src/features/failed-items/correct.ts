import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import { implement, implementInTransaction } from '../../kernel/http/implement.ts';
import { AppError } from '../../kernel/problems/app-error.ts';
import { record } from '../../kernel/records/events.ts';
import { keepPhoto, prepareImage, receiveUpload } from '../photos/index.ts';
import { heldItem } from './held.ts';
import { presentFailedItems } from './present.ts';

/** What was done about a failed item. Saying so does not pass it: only a new reading does. */
export function correctFailedItems(app: FastifyInstance): void {
  implementInTransaction(app, routes.failedItems.correct, async ({ db, actor, params, body, request }) => {
    const row = await heldItem(db, params.id);
    if (row.state === 'closed')
      throw new AppError('conflict', 'This item is closed; nothing is left to correct.');
    // One that comes up at a reinspection already stays there.
    const state = row.state === 'open' ? 'corrected' : row.state;
    await db.failedItem.updateMany({ where: params, data: { state, updatedAt: new Date() } });
    await db.failedItemEntry.createMany({
      data: {
        failedItemId: row.id,
        kind: 'corrected',
        text: body.text,
        byName: actor.name,
        byUserId: actor.id,
      },
    });
    await record(db, actor, request.id, {
      action: 'item corrected',
      recordType: 'failed item',
      recordId: row.id,
      houseId: row.houseId,
      before: { state: row.state },
      after: { state, text: body.text },
    });
    return (await presentFailedItems(db, [await heldItem(db, row.id)]))[0]!;
  });

  const photo = routes.failedItems.addPhoto;
  implement(app, photo, async ({ actor, params, request, database }) => {
    const { file, fields } = await receiveUpload(request, photo.body);
    const image = await prepareImage(file);
    return database.as(actor, async (db) => {
      const row = await heldItem(db, params.id);
      const known = row.attachments.some(({ id }) => id === fields.id);
      if (row.state === 'closed' && !known)
        throw new AppError('conflict', 'This item is closed; nothing is left to correct.');
      const place = {
        id: fields.id,
        houseId: row.houseId,
        visitId: null,
        failedItemId: row.id,
        item: row.item,
        subjectId: row.subjectId,
        caption: fields.caption || null,
        takenAt: fields.takenAt === undefined ? null : new Date(fields.takenAt),
      };
      return keepPhoto(db, actor, request.id, place, image);
    });
  });
}
