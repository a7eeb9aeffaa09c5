import { randomUUID } from 'node:crypto';
import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import type { UserActor } from '../../../kernel/actor.ts';
import type { Db } from '../../../kernel/database/database.ts';
import { implement, implementInTransaction } from '../../../kernel/http/implement.ts';
import { found } from '../../../kernel/problems/app-error.ts';
import { record } from '../../../kernel/records/events.ts';
import { prepareImage, receiveUpload } from '../../photos/index.ts';
import { heldAction } from './keep.ts';
import { showAction } from './present.ts';

async function add(
  db: Db,
  actor: UserActor,
  requestId: string,
  evidence: { correctiveActionId: string; text: string; fileId: string | null },
  sha256: string | null,
) {
  const row = await db.correctiveEvidence.create({
    data: { ...evidence, addedById: actor.id, addedBy: actor.name },
  });
  await record(db, actor, requestId, {
    action: 'evidence added',
    recordType: 'corrective action',
    recordId: evidence.correctiveActionId,
    after: { id: row.id, text: evidence.text, sha256 },
  });
  return showAction(db, evidence.correctiveActionId);
}

/** What shows that an action was taken: words, and photos as they were sent. */
export function keepEvidence(app: FastifyInstance): void {
  const contract = routes.correctiveActions;
  implementInTransaction(app, contract.addEvidence, async ({ db, actor, params, body, request }) => {
    const { id } = await heldAction(db, params.id);
    return add(db, actor, request.id, { correctiveActionId: id, text: body.text, fileId: null }, null);
  });

  implement(app, contract.addPhoto, async ({ actor, params, request, database }) => {
    const { file, fields } = await receiveUpload(request, contract.addPhoto.body);
    const image = await prepareImage(file);
    return database.as(actor, async (db) => {
      const { id } = await heldAction(db, params.id);
      const fileId = randomUUID();
      await db.storedFile.create({ data: { id: fileId, ...image } });
      return add(db, actor, request.id, { correctiveActionId: id, text: fields.text, fileId }, image.sha256);
    });
  });

  implement(app, contract.photo, async ({ actor, params, reply, database }) => {
    const { file } = await database.as(actor, async (db) =>
      found(
        await db.correctiveEvidence.findUnique({
          where: params,
          select: { file: { select: { bytes: true, mediaType: true } } },
        }),
        'evidence',
      ),
    );
    const { bytes, mediaType } = found(file, 'photo');
    void reply.headers({
      'cache-control': 'private, max-age=86400',
      'content-security-policy': "default-src 'none'; sandbox",
      'x-content-type-options': 'nosniff',
      'content-disposition': 'inline; filename="evidence"',
    });
    return reply.type(mediaType).send(Buffer.from(bytes));
  });
}
