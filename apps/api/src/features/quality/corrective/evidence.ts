import { randomUUID } from 'node:crypto';
import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import type { UserActor } from '../../../kernel/actor.ts';
import type { Db } from '../../../kernel/database/database.ts';
import { implement, implementInTransaction } from '../../../kernel/http/implement.ts';
import { found } from '../../../kernel/problems/app-error.ts';
import { record } from '../../../kernel/records/events.ts';
import { receiveUpload } from '../../photos/index.ts';
import { headersOf, prepareEvidence, safeName } from './evidence-file.ts';
import { heldAction } from './keep.ts';
import { showAction } from './present.ts';

async function add(
  db: Db,
  actor: UserActor,
  requestId: string,
  evidence: { correctiveActionId: string; text: string; fileId: string | null; fileName: string | null },
  file: { sha256: string; mediaType: string; size: number } | null,
) {
  const row = await db.correctiveEvidence.create({
    data: { ...evidence, addedById: actor.id, addedBy: actor.name },
  });
  const { text, fileName } = evidence;
  await record(db, actor, requestId, {
    action: 'evidence added',
    recordType: 'corrective action',
    recordId: evidence.correctiveActionId,
    after: {
      ...{ id: row.id, text, sha256: file?.sha256 ?? null },
      ...(file ? { fileName, mediaType: file.mediaType, size: file.size } : {}),
    },
  });
  return showAction(db, evidence.correctiveActionId);
}

/** What shows that an action was taken: words, and photos and PDFs as they were sent. */
export function keepEvidence(app: FastifyInstance): void {
  const contract = routes.correctiveActions;
  implementInTransaction(app, contract.addEvidence, async ({ db, actor, params, body, request }) => {
    const { id } = await heldAction(db, params.id);
    const plain = { correctiveActionId: id, text: body.text, fileId: null, fileName: null };
    return add(db, actor, request.id, plain, null);
  });

  implement(app, contract.addFile, async ({ actor, params, request, database }) => {
    const { file, name, fields } = await receiveUpload(request, contract.addFile.body);
    const { stored, fileName } = await prepareEvidence(file, name);
    return database.as(actor, async (db) => {
      const { id } = await heldAction(db, params.id);
      const fileId = randomUUID();
      await db.storedFile.create({ data: { id: fileId, ...stored } });
      const { text } = fields;
      return add(db, actor, request.id, { correctiveActionId: id, text, fileId, fileName }, stored);
    });
  });

  implement(app, contract.file, async ({ actor, params, reply, database }) => {
    const { file, fileName } = await database.as(actor, async (db) =>
      found(
        await db.correctiveEvidence.findUnique({
          where: params,
          select: { fileName: true, file: { select: { bytes: true, mediaType: true } } },
        }),
        'evidence',
      ),
    );
    const { bytes, mediaType } = found(file, 'file');
    void reply.headers(headersOf(safeName(fileName ?? '', mediaType), mediaType));
    return reply.type(mediaType).send(Buffer.from(bytes));
  });
}
