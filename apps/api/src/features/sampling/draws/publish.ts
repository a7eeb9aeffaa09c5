import { randomBytes, randomUUID } from 'node:crypto';
import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import { Prisma } from '@countercheck/prisma';
import { algorithm, commitmentOf } from '@countercheck/sampling';
import { implementInTransaction } from '../../../kernel/http/implement.ts';
import { record } from '../../../kernel/records/events.ts';
import type { SecretBox } from '../../../kernel/secrets/box.ts';
import { databaseTime } from '../clock.ts';
import { findDraw } from './parts.ts';
import { presentDraw } from './present.ts';

/** First step. The seed is made here, encrypted at once, and seen by nobody before it is revealed. */
export function publishDraws(app: FastifyInstance, box: SecretBox): void {
  implementInTransaction(app, routes.sampling.publishDraw, async ({ db, actor, body, request }) => {
    const { title, purpose, method, size, weighing } = body;
    const id = randomUUID();
    const seed = randomBytes(32).toString('hex');
    const commitment = commitmentOf(seed);
    await db.draw.create({
      data: {
        ...{ id, title, method, size, algorithm, commitment },
        purpose: purpose === 'file-review' ? 'file_review' : 'field_retest',
        weighing: weighing ?? Prisma.DbNull,
        sealedSeed: box.seal(seed, id),
        committedAt: await databaseTime(db),
        committedById: actor.id,
        committedBy: actor.name,
      },
    });
    await record(db, actor, request.id, {
      action: 'draw published',
      recordType: 'draw',
      recordId: id,
      after: { title, purpose, method, size, weighing, algorithm, commitment },
    });
    return presentDraw(db, await findDraw(db, id));
  });
}
