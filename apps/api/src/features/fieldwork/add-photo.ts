import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import type * as z from 'zod';
import { implement } from '../../kernel/http/implement.ts';
import { keepPhoto, prepareImage, receiveUpload, type PhotoPlace } from '../photos/index.ts';
import type { VisitRow } from '../visits/index.ts';
import { heldVisit, mustBeOpen, mustBeOwn } from './own-visit.ts';

type Fields = z.output<typeof routes.fieldwork.addPhoto.body>;

/** Where a photo of a visit belongs, as the phone said. */
export function visitPlace(visit: Pick<VisitRow, 'id' | 'houseId'>, fields: Fields): PhotoPlace {
  return {
    id: fields.id,
    houseId: visit.houseId,
    visitId: visit.id,
    failedItemId: null,
    item: fields.item || null,
    subjectId: fields.subjectId || null,
    caption: fields.caption || null,
    takenAt: fields.takenAt === undefined ? null : new Date(fields.takenAt),
  };
}

export function addVisitPhotos(app: FastifyInstance): void {
  const contract = routes.fieldwork.addPhoto;
  implement(app, contract, async ({ actor, params, request, database }) => {
    const { file, fields } = await receiveUpload(request, contract.body);
    const image = await prepareImage(file);
    return database.as(actor, async (db) => {
      const visit = await heldVisit(db, params.id);
      mustBeOwn(visit, actor);
      // A photo that arrived before the visit was closed may be sent again after it.
      if (!(await db.attachment.findUnique({ where: { id: fields.id }, select: { id: true } })))
        mustBeOpen(visit);
      return keepPhoto(db, actor, request.id, visitPlace(visit, fields), image);
    });
  });
}
