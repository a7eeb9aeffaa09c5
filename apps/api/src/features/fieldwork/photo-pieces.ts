import type { FastifyInstance } from 'fastify';
import { largestPiece, routes, type PhotoUpload } from '@countercheck/contracts';
import type { PhotoUpload as UploadRow } from '@countercheck/prisma';
import { createHash } from 'node:crypto';
import type { UserActor } from '../../kernel/actor.ts';
import type { Database, Db } from '../../kernel/database/database.ts';
import { implement, implementInTransaction } from '../../kernel/http/implement.ts';
import { AppError, found } from '../../kernel/problems/app-error.ts';
import { keepPhoto, prepareImage } from '../photos/index.ts';
import { visitPlace } from './add-photo.ts';
import { heldVisit, mustBeOpen, mustBeOwn } from './own-visit.ts';

const present = ({ id, size, received, keptAt }: UploadRow): PhotoUpload => ({
  id,
  size,
  received,
  kept: keptAt !== null,
});

/** Held until the transaction ends, so that two tabs add their pieces one after the other. */
async function heldUpload(db: Db, id: string, actor: UserActor): Promise<UploadRow> {
  await db.$queryRaw`SELECT id FROM photo_uploads WHERE id = ${id}::uuid FOR UPDATE`;
  return ownUpload(db, id, actor);
}

async function ownUpload(db: Db, id: string, actor: UserActor): Promise<UploadRow> {
  const upload = found(await db.photoUpload.findUnique({ where: { id } }), 'photo on its way');
  return found(upload.addedById === actor.id ? upload : null, 'photo on its way');
}

function announceUploads(app: FastifyInstance): void {
  implementInTransaction(app, routes.fieldwork.beginUpload, async ({ db, actor, params, body }) => {
    const visit = await heldVisit(db, params.id);
    mustBeOwn(visit, actor);
    const said = {
      ...{ visitId: visit.id, addedById: actor.id, size: body.size, sha256: body.sha256 },
      ...{ item: body.item || null, subjectId: body.subjectId || null, caption: body.caption || null },
    };
    const earlier = await db.photoUpload.findUnique({ where: { id: body.id } });
    if (earlier) {
      const same = Object.entries(said).every(([key, value]) => earlier[key as keyof UploadRow] === value);
      if (!same) throw new AppError('same-key-other-body');
      return present(earlier);
    }
    // A photo that arrived before the visit was closed may be announced again after it.
    const kept = await db.attachment.findUnique({
      where: { id: body.id },
      select: { visitId: true, file: { select: { sha256: true } } },
    });
    if (kept) {
      if (kept.visitId !== visit.id || kept.file.sha256 !== body.sha256)
        throw new AppError('same-key-other-body');
      return { id: body.id, size: body.size, received: body.size, kept: true };
    }
    mustBeOpen(visit);
    const takenAt = body.takenAt === undefined ? null : new Date(body.takenAt);
    return present(await db.photoUpload.create({ data: { id: body.id, ...said, takenAt } }));
  });
}

/** Adds the piece where the last one ended; a piece that is there already changes nothing. */
function append(database: Database, actor: UserActor, id: string, offset: number, bytes: Buffer) {
  return database.as(actor, async (db) => {
    const upload = await heldUpload(db, id, actor);
    const end = offset + bytes.length;
    if (upload.keptAt || end <= upload.received) return upload;
    if (offset !== upload.received || end > upload.size)
      throw new AppError('upload-offset', `${upload.received} of ${upload.size} bytes have arrived.`);
    await db.photoUploadPiece.create({ data: { uploadId: id, offset, bytes: new Uint8Array(bytes) } });
    return db.photoUpload.update({ where: { id }, data: { received: end } });
  });
}

/** All bytes have come: the photo they make is kept, or all of them are thrown away. */
async function finish(database: Database, actor: UserActor, requestId: string, upload: UploadRow) {
  const pieces = await database.as(actor, (db) =>
    db.photoUploadPiece.findMany({ where: { uploadId: upload.id }, orderBy: { offset: 'asc' } }),
  );
  const file = Buffer.concat(pieces.map(({ bytes }) => bytes));
  const image = await whole(file, upload).catch(async (error: unknown) => {
    await database.as(actor, async (db) => {
      await heldUpload(db, upload.id, actor);
      await db.photoUploadPiece.deleteMany({ where: { uploadId: upload.id } });
      await db.photoUpload.updateMany({ where: { id: upload.id, keptAt: null }, data: { received: 0 } });
    });
    throw error;
  });
  return database.as(actor, async (db) => {
    const visit = await heldVisit(db, upload.visitId);
    const held = await heldUpload(db, upload.id, actor);
    if (held.keptAt) return held;
    mustBeOwn(visit, actor);
    mustBeOpen(visit);
    const { id, item, subjectId, caption, takenAt } = upload;
    const place = { ...visitPlace(visit, { id }), item, subjectId, caption, takenAt };
    await keepPhoto(db, actor, requestId, place, image);
    await db.photoUploadPiece.deleteMany({ where: { uploadId: id } });
    return db.photoUpload.update({ where: { id }, data: { keptAt: new Date() } });
  });
}

async function whole(file: Buffer, { sha256 }: UploadRow) {
  if (createHash('sha256').update(file).digest('hex') !== sha256) throw new AppError('upload-differs');
  return prepareImage(file);
}

/** Photos over a connection that comes and goes: announced with their hash, sent in pieces, gone on with. */
export function takePhotosInPieces(app: FastifyInstance): void {
  const parser = { parseAs: 'buffer' as const, bodyLimit: largestPiece };
  app.addContentTypeParser('application/octet-stream', parser, (_request, body, done) => done(null, body));
  announceUploads(app);
  implementInTransaction(app, routes.fieldwork.showUpload, async ({ db, actor, params }) =>
    present(await ownUpload(db, params.id, actor)),
  );
  implement(app, routes.fieldwork.sendPiece, async ({ actor, params, query, body, request, database }) => {
    const bytes = Buffer.isBuffer(body) ? body : Buffer.alloc(0);
    const upload = await append(database, actor, params.id, query.offset, bytes);
    if (upload.keptAt || upload.received < upload.size) return present(upload);
    return present(await finish(database, actor, request.id, upload));
  });
}
